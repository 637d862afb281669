import { distanceBetween } from '../../geodesy/geodesic.ts';
import type { Position } from '../../geodesy/position.ts';
import type { Outcome, Problem } from '../../units/outcome.ts';
import type { Metres } from '../../units/quantity.ts';
import { routeEnds } from '../check/check-routes.ts';
import type { PlanPoint, PointRole, RouteRole } from '../model/plan.ts';
import type { FoundLine } from './import-preview.ts';

/** A point of the plan and how far the end of a line lies from it. */
export interface NearPoint {
  readonly point: PlanPoint;
  readonly distance: Metres;
}

/** A line of a file joined to two points of a plan. */
export interface JoinedLine {
  readonly from: NearPoint;
  readonly to: NearPoint;
  /** Whether it runs against the way it was recorded. */
  readonly reversed: boolean;
  /** From point to point, its first and last vertex moved onto them. */
  readonly vertices: readonly Position[];
}

export interface JoinWish {
  readonly role: RouteRole;
  /** How far an end may lie from its point. */
  readonly reach: Metres;
}

/**
 * Joins the ends of a line to the nearest points that a route of the role may begin and end at. A line recorded the other way
 * round is turned; one whose ends lie beyond the reach is refused.
 */
export function joinLine(line: FoundLine, points: readonly PlanPoint[], wish: JoinWish): Outcome<JoinedLine> {
  const there = endsOf(line.positions, points, wish.role);
  const back = endsOf(line.positions.toReversed(), points, wish.role);
  const [best, other] = back.farthest < there.farthest ? [back, there] : [there, back];
  for (const ends of [best, other]) {
    if (ends.from === null || ends.to === null || ends.farthest > wish.reach) continue;
    const { from, to } = ends;
    const inner = ends.positions.slice(1, -1);
    const vertices = withoutRepeats([from.point.position, ...inner, to.point.position]);
    return { ok: true, value: { from, to, reversed: ends === back, vertices } };
  }
  return { ok: false, problems: [...outOfReach(best, 'from', line, wish), ...outOfReach(best, 'to', line, wish)] };
}

interface Ends {
  readonly positions: readonly Position[];
  readonly from: NearPoint | null;
  readonly to: NearPoint | null;
  readonly farthest: Metres;
}

function endsOf(positions: readonly Position[], points: readonly PlanPoint[], role: RouteRole): Ends {
  const from = nearest(positions[0], points, routeEnds[role].from);
  const to = nearest(positions.at(-1), points, routeEnds[role].to);
  const distances = [from, to].map((near) => near?.distance ?? Number.POSITIVE_INFINITY);
  return { positions, from, to, farthest: Math.max(...distances) };
}

function nearest(
  position: Position | undefined,
  points: readonly PlanPoint[],
  roles: readonly PointRole[],
): NearPoint | null {
  if (position === undefined) return null;
  let best: NearPoint | null = null;
  for (const point of points) {
    if (!roles.includes(point.role)) continue;
    const distance = distanceBetween(position, point.position);
    if (best === null || distance < best.distance) best = { point, distance };
  }
  return best;
}

function outOfReach(ends: Ends, side: 'from' | 'to', line: FoundLine, { role, reach }: JoinWish): readonly Problem[] {
  const near = ends[side];
  const roles = routeEnds[role][side].map((name) => `a ${name}`).join(' or ');
  const end = side === 'from' ? 'start' : 'end';
  if (near === null) {
    const expected = `${roles} for the ${end} of a ${role} line`;
    return [
      { code: 'end-without-point', path: line.path, found: `no ${routeEnds[role][side].join(' or ')}`, expected },
    ];
  }
  if (near.distance <= reach) return [];
  const name = near.point.name === '' ? near.point.id : near.point.name;
  return [
    {
      code: 'end-out-of-reach',
      path: line.path,
      found: `its ${end} ${near.distance.toFixed(1)} m from ${name}, the nearest`,
      expected: `${roles} within ${reach} m of the ${end}`,
    },
  ];
}

function withoutRepeats(vertices: readonly Position[]): readonly Position[] {
  return vertices.filter(({ lon, lat }, index) => {
    const before = vertices[index - 1];
    return before === undefined || before.lon !== lon || before.lat !== lat;
  });
}
