import { offsetBetween } from '../../geodesy/geodesic.ts';
import type { PlanRoute } from '../../plan/model/plan.ts';
import type { Degrees } from '../../units/quantity.ts';

/** Below this a rigid pipe is sprung into the trench; a coiled one bends by itself up to the second figure. Common practice, no source. */
const SPRUNG: Degrees = 15;
const COILED: Degrees = 60;
/** From here on a right-angled elbow is nearer than one of 45°. */
const RIGHT_ANGLED: Degrees = 67.5;

/** Change of direction at each corner of a drawn route, 0 to 180°. */
export function cornersOf(route: PlanRoute): readonly Degrees[] {
  const steps = route.vertices.slice(1).flatMap((to, i) => {
    const from = route.vertices[i];
    return from ? [offsetBetween(from, to)] : [];
  });
  return steps.slice(1).map((next, i) => {
    const last = steps[i] ?? next;
    const turn = Math.atan2(
      last.east * next.north - last.north * next.east,
      last.east * next.east + last.north * next.north,
    );
    return Math.abs((turn * 180) / Math.PI);
  });
}

/** Elbows that a route's corners ask for, by the handbook's names. */
export function bendsOf(
  route: PlanRoute,
  pipe: 'rigid' | 'coiled',
): readonly { readonly item: string; readonly count: number }[] {
  const least = pipe === 'coiled' ? COILED : SPRUNG;
  const corners = cornersOf(route).filter((c) => c >= least);
  const right = corners.filter((c) => c >= RIGHT_ANGLED).length;
  return [
    { item: 'elbow-45', count: corners.length - right },
    { item: 'elbow-90-medium', count: right },
  ];
}
