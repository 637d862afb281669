import type { Map as MapLibreMap } from 'maplibre-gl';
import type { Position } from '../../geodesy/position.ts';
import type { MapViewProps } from '../state/map-view-props.ts';
import { boundsOf } from './map-style.ts';

const PADDING = 36;
/** Names stand beside the points, the scale below them. */
const PLAN_PADDING = { top: 44, bottom: 64, left: 108, right: 108 };
const CLOSEST = 18;
const MARGIN_SHARE = 0.2;
/** Below this width of the map, CSS pixels, the room for names is margin enough. */
const NARROW = 600;
/** Room around a plan of a single place, degrees. */
const LEAST_MARGIN = 0.0005;

/** Shows what was just opened: the plan on its terrain, else the whole terrain, the picture, or the plan alone. */
export function fitToOpened(map: MapLibreMap, before: MapViewProps | null, after: MapViewProps): void {
  const narrow = map.getContainer().clientWidth < NARROW;
  const outline = newOutline(before, after, narrow ? 0 : MARGIN_SHARE);
  const { bounds } = boundsOf(outline);
  if (!bounds) return;
  const padding = outline === after.terrain?.outline || outline === after.picture?.outline ? PADDING : PLAN_PADDING;
  // At once: a flight would ask for tiles on the way that nobody looks at.
  map.fitBounds(bounds, { padding, maxZoom: CLOSEST, duration: 0 });
}

function newOutline(before: MapViewProps | null, after: MapViewProps, margin: number): readonly Position[] {
  const begun = (before?.plan.points.length ?? 0) === 0 || before?.opened !== after.opened;
  const planOpened = after.plan.points.length > 1 && begun;
  const { terrain, picture } = after;
  // On ground that was there before, a plan that is opened is shown where it lies.
  if (terrain && planOpened && terrain === before?.terrain) return aroundPlan(after, margin);
  if (terrain && (planOpened || terrain !== before?.terrain)) {
    return planOn(terrain.outline, after, margin) ?? terrain.outline;
  }
  if (terrain) return [];
  if (picture && picture !== before?.picture) return picture.outline;
  return planOpened ? aroundPlan(after, margin) : [];
}

/** The surroundings of the plan where it lies on the ground that was opened. */
function planOn(outline: readonly Position[], props: MapViewProps, margin: number): readonly Position[] | null {
  const { bounds } = boundsOf(outline);
  if (!bounds || props.plan.points.length < 2) return null;
  const [west, south, east, north] = bounds;
  const inside = ({ lon, lat }: Position) => lon >= west && lon <= east && lat >= south && lat <= north;
  if (!props.plan.points.every(({ position }) => inside(position))) return null;
  return aroundPlan(props, margin);
}

/** The plan with room around it, a share of its own extent. */
function aroundPlan({ plan }: MapViewProps, share: number): readonly Position[] {
  const { bounds } = boundsOf(plan.points.map(({ position }) => position));
  if (!bounds) return [];
  const [west, south, east, north] = bounds;
  const margin = Math.max(LEAST_MARGIN, share * Math.max(east - west, north - south));
  return [
    { lon: west - margin, lat: south - margin },
    { lon: east + margin, lat: north + margin },
  ];
}
