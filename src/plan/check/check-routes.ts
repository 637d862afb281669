import type { Position } from '../../geodesy/position.ts';
import type { Problem } from '../../units/outcome.ts';
import type { Degrees } from '../../units/quantity.ts';
import type { HandbookRows } from '../model/known-rows.ts';
import { describe } from '../model/path.ts';
import type { PlanPoint, PlanRoute, PointRole, RouteRole } from '../model/plan.ts';
import type { Placed, PlanDraft } from '../model/plan-draft.ts';

/** How far the end of a drawn line may lie from its point: a tenth of a millimetre on the ground. */
const endTolerance: Degrees = 1e-9;

/** Which points a route of each role may join. */
export const routeEnds: Readonly<
  Record<RouteRole, { readonly from: readonly PointRole[]; readonly to: readonly PointRole[] }>
> = {
  supply: { from: ['source'], to: ['standpipe'] },
  drive: { from: ['standpipe', 'source'], to: ['pump'] },
  delivery: { from: ['pump'], to: ['tank', 'trough'] },
  gravity: { from: ['tank', 'source'], to: ['trough'] },
};

/** Each route joins two points that its role allows, lies on them, and has a pipe and fittings that exist. */
export function checkRoutes(draft: PlanDraft, rows: HandbookRows): readonly Problem[] {
  const points = new Map(draft.points.map(({ part }) => [part.id, part]));
  const pipes = draft.settings && new Set(draft.settings.pipes.map(({ id }) => id));
  const broken = draft.routes.flatMap(({ part, path }) => [
    ...checkEnd({ route: part, path, side: 'from', point: points.get(part.from) }, draft.allFeaturesRead),
    ...checkEnd({ route: part, path, side: 'to', point: points.get(part.to) }, draft.allFeaturesRead),
    ...(pipes === null || pipes.has(part.pipe) ? [] : [unknown(`${path}.properties.pipe`, part.pipe, 'a pipe')]),
    ...checkFittings(part, path, rows),
  ]);
  return [...broken, ...fedTwice(draft.routes)];
}

interface RouteEnd {
  readonly route: PlanRoute;
  readonly path: string;
  readonly side: 'from' | 'to';
  readonly point: PlanPoint | undefined;
}

function checkEnd({ route, path, side, point }: RouteEnd, allFeaturesRead: boolean): readonly Problem[] {
  if (point === undefined) {
    return allFeaturesRead ? [unknown(`${path}.properties.${side}`, route[side], 'a point')] : [];
  }
  const roles = routeEnds[route.role][side];
  const problems: Problem[] = [];
  if (!roles.includes(point.role)) {
    problems.push({
      code: 'wrong-role',
      path: `${path}.properties.${side}`,
      found: `a ${point.role}`,
      expected: `a ${roles.join(' or a ')} for a ${route.role} route`,
    });
  }
  const index = side === 'from' ? 0 : route.vertices.length - 1;
  const end = route.vertices[index];
  if (end !== undefined && !isAt(end, point.position)) {
    problems.push({
      code: 'end-not-at-point',
      path: `${path}.geometry.coordinates[${index}]`,
      found: shown(end),
      expected: `the position of ${point.id}, ${shown(point.position)}`,
    });
  }
  return problems;
}

function isAt(a: Position, b: Position): boolean {
  return Math.abs(a.lon - b.lon) <= endTolerance && Math.abs(a.lat - b.lat) <= endTolerance;
}

function shown({ lon, lat }: Position): string {
  return `[${lon}, ${lat}]`;
}

function checkFittings(route: PlanRoute, path: string, rows: HandbookRows): readonly Problem[] {
  const seen = new Set<string>();
  return route.fittings.flatMap(({ fitting }, index) => {
    const where = `${path}.properties.fittings[${index}].fitting`;
    const problems: Problem[] = [];
    if (!rows.hasFitting(fitting)) problems.push(unknownRow(where, fitting, 'a fitting'));
    if (seen.has(fitting)) {
      problems.push({ code: 'listed-twice', path: where, found: describe(fitting), expected: 'each fitting once' });
    }
    seen.add(fitting);
    return problems;
  });
}

/** Water reaches a point by one route: two would share it in a way that a plan cannot say. */
function fedTwice(routes: readonly Placed<PlanRoute>[]): readonly Problem[] {
  const fed = new Map<string, string>();
  return routes.flatMap(({ part, path }) => {
    const first = fed.get(part.to);
    if (first === undefined) {
      fed.set(part.to, part.id);
      return [];
    }
    return [
      {
        code: 'fed-twice',
        path: `${path}.properties.to`,
        found: describe(part.to),
        expected: `a point that no other route leads to; ${first} leads there`,
      },
    ];
  });
}

function unknown(path: string, id: string, what: string): Problem {
  return { code: 'unknown-reference', path, found: describe(id), expected: `${what} of this plan` };
}

/** A row that the handbook does not have. */
export function unknownRow(path: string, row: string, what: string): Problem {
  return { code: 'unknown-row', path, found: describe(row), expected: `${what} of the handbook` };
}
