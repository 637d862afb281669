import { computed, signal } from '@preact/signals';
import type { Position } from '../../geodesy/position.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { Spot } from './map-view-props.ts';
import { pointedRemedy } from './remedy-store.ts';
import { plan } from './store.ts';

/** The place that was asked to be shown; null for none. */
export const spot = signal<Spot | null>(null);

/** The middle bend of a line, or where a point stands; null for an id of neither. */
export function placeOf(of: Plan, id: string): Position | null {
  const point = of.points.find((each) => each.id === id);
  if (point !== undefined) return point.position;
  const vertices = of.routes.find((each) => each.id === id)?.vertices ?? [];
  const [a, b] = [vertices[Math.floor((vertices.length - 1) / 2)], vertices[Math.ceil((vertices.length - 1) / 2)]];
  if (a === undefined || b === undefined) return null;
  return { lon: (a.lon + b.lon) / 2, lat: (a.lat + b.lat) / 2 };
}

/** Places that are ringed on the map: what a remedy would change while it is pointed at, else the place that is shown. */
export const ringed = computed<readonly Position[]>(() => {
  const remedy = pointedRemedy.value;
  if (remedy === null) return spot.value === null ? [] : [spot.value.position];
  return remedy.changes.flatMap(({ about }) => {
    const after = remedy.after.plan;
    const place = placeOf(after, about) ?? placeOf(plan.value, about);
    return place === null ? [] : [place];
  });
});
