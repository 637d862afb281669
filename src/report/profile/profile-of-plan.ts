import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import { pointHeights } from '../../evaluation/site/heights.ts';
import { lineProfile, SHALLOW_TRENCH, trenchOf } from '../../evaluation/site/line-profile.ts';
import { Z90 } from '../../evaluation/statistics/normal.ts';
import type { Plan, PlanRoute, PointId, RouteId } from '../../plan/model/plan.ts';
import { varianceOfDifference } from '../../terrain/accuracy/height-variogram.ts';
import type { GroundLine, GroundPoint, HeightAccuracy } from '../../terrain/grid/ground.ts';
import type { Metres } from '../../units/quantity.ts';
import type { WaterWay } from '../tables/water-ways.ts';
import type { ProfileLeg, ProfileStation, ProfileView } from './profile-view.ts';

/** A plan as evaluated on its ground: all that a profile is drawn from. */
export interface ProfileSource {
  readonly plan: Plan;
  readonly evaluation: Evaluation | null;
  readonly lines: ReadonlyMap<RouteId, GroundLine>;
  readonly points: ReadonlyMap<PointId, GroundPoint>;
  readonly accuracy: HeightAccuracy | null;
}

/** The legs and stations of one way of the water, end to end along the distance axis. */
export function profileOfWay(source: ProfileSource, way: WaterWay): Pick<ProfileView, 'title' | 'legs' | 'stations'> {
  const placed = placeRoutes(source, way);
  const pump = pumpPlace(source.plan, placed);
  return {
    title: `Profile: ${way.title}`,
    legs: placed.map((place) => legOf(source, place, pump)),
    stations: stationsOf(source, placed),
  };
}

interface PlacedRoute {
  readonly route: PlanRoute;
  readonly ground: GroundLine;
  readonly offset: Metres;
}

function placeRoutes(source: ProfileSource, way: WaterWay): PlacedRoute[] {
  const placed: PlacedRoute[] = [];
  let offset = 0;
  for (const id of way.routes) {
    const route = source.plan.routes.find((candidate) => candidate.id === id);
    const ground = source.lines.get(id);
    if (route === undefined || ground === undefined) continue;
    placed.push({ route, ground: levelled(source, route, ground), offset });
    offset += ground.horizontal;
  }
  return placed;
}

/** The ground as the evaluation uses it, shifted towards levels that were measured at the ends. */
function levelled(source: ProfileSource, route: PlanRoute, ground: GroundLine): GroundLine {
  if (source.accuracy === null) return ground;
  const heights = pointHeights(source.plan, source.points, source.accuracy);
  return { ...ground, ground: lineProfile(route, ground, { heights, accuracy: source.accuracy }).height };
}

/** Where the pump stands along the axis; fall and lift are both counted from it. The start where the way has no pump. */
function pumpPlace(plan: Plan, placed: readonly PlacedRoute[]): Metres {
  const pump = plan.points.find((point) => point.role === 'pump')?.id;
  const before = placed.find(({ route }) => route.to === pump);
  if (before !== undefined) return before.offset + before.ground.horizontal;
  return placed.find(({ route }) => route.from === pump)?.offset ?? 0;
}

function legOf(source: ProfileSource, { route, ground, offset }: PlacedRoute, pump: Metres): ProfileLeg {
  return {
    id: route.id,
    role: route.role,
    name: route.name,
    offset,
    ground,
    dug: Math.max(0, trenchOf(route) - SHALLOW_TRENCH),
    result: source.evaluation?.lines.find((line) => line.id === route.id) ?? null,
    spread: source.accuracy === null ? null : bandOf(source.accuracy, ground, offset - pump),
    emphasis: 'main',
  };
}

/** Half width of the 10-to-90 band of the height difference to the pump, the distance taken along the line. */
function bandOf(accuracy: HeightAccuracy, ground: GroundLine, fromPump: Metres): Float64Array {
  return ground.at.map((at) => {
    return Z90 * Math.sqrt(varianceOfDifference(accuracy, { distance: Math.abs(fromPump + at), slopes: [0, 0] }));
  });
}

function stationsOf(source: ProfileSource, placed: readonly PlacedRoute[]): ProfileStation[] {
  const [first] = placed;
  if (first === undefined) return [];
  const ends = placed.map(({ route, ground, offset }) => ({ id: route.to, at: offset + ground.horizontal }));
  return [{ id: first.route.from, at: first.offset }, ...ends].flatMap(({ id, at }) => {
    const point = source.plan.points.find((candidate) => candidate.id === id);
    const result = source.evaluation?.points.find((candidate) => candidate.id === id);
    if (point === undefined) return [];
    const ground = result?.ground ?? source.points.get(id)?.ground ?? null;
    return [{ id, role: point.role, name: point.name, at, ground, level: result?.level ?? null }];
  });
}
