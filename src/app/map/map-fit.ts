import type { Map as MapLibreMap } from 'maplibre-gl';
import { boundsOf } from './map-style.ts';
import type { MapViewProps } from './map-view-props.ts';

const PADDING = 36;
const CLOSEST = 18;
/** Room around a plan that is opened without terrain, degrees. */
const AROUND_PLAN = 0.002;

/** Shows the whole of what was just opened: the terrain, else the picture, else the plan. */
export function fitToOpened(map: MapLibreMap, before: MapViewProps | null, after: MapViewProps): void {
  const outline = newOutline(before, after);
  const { bounds } = boundsOf(outline);
  if (!bounds) return;
  const animate = before !== null && !window.matchMedia('(prefers-reduced-motion: reduce)').matches;
  map.fitBounds(bounds, { padding: PADDING, maxZoom: CLOSEST, duration: animate ? 400 : 0 });
}

function newOutline(before: MapViewProps | null, after: MapViewProps) {
  if (after.terrain && after.terrain !== before?.terrain) return after.terrain.outline;
  if (after.terrain) return [];
  if (after.picture && after.picture !== before?.picture) return after.picture.outline;
  if (after.picture || (before && before.plan.points.length > 0)) return [];
  return after.plan.points.flatMap(({ position: { lon, lat } }) => [
    { lon: lon - AROUND_PLAN, lat: lat - AROUND_PLAN },
    { lon: lon + AROUND_PLAN, lat: lat + AROUND_PLAN },
  ]);
}
