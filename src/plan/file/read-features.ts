import type { Outcome, Problem } from '../../units/outcome.ts';
import { describe } from '../model/path.ts';
import type { PlanArea, PlanPoint, PlanRoute, PointRole, RouteRole } from '../model/plan.ts';
import type { Placed } from '../model/plan-draft.ts';
import { areaCodec, areaRole } from './area-file.ts';
import type { JsonValue } from './json-text.ts';
import { isPointRole, pointCodecs } from './point-file.ts';
import { accepted, readPart } from './read-part.ts';
import { isRouteRole, routeCodec } from './route-file.ts';

/** Points, routes and areas together. */
export const mostFeatures = 5000;

export interface Features {
  readonly points: readonly Placed<PlanPoint>[];
  readonly routes: readonly Placed<PlanRoute>[];
  readonly areas: readonly Placed<PlanArea>[];
  readonly allFeaturesRead: boolean;
}

/** Where problems go, and after how many of them reading stops. */
interface Complaints {
  readonly problems: Problem[];
  readonly mostProblems: number;
}

/** Reads the features of a plan file in their order; those that cannot be read are left out and complained about. */
export function readFeatures(features: JsonValue | undefined, { problems, mostProblems }: Complaints): Features {
  const points: Placed<PlanPoint>[] = [];
  const routes: Placed<PlanRoute>[] = [];
  const areas: Placed<PlanArea>[] = [];
  const list = listOf(features, problems);
  for (const [index, feature] of list.entries()) {
    if (problems.length >= mostProblems) break;
    const path = `features[${index}]`;
    const role = accepted(roleOf(feature, path), problems);
    if (role === null) continue;
    if (role === areaRole) {
      const part = accepted(readPart(areaCodec, feature, path), problems);
      if (part !== null) areas.push({ part, path });
    } else if (isPointRole(role)) {
      const part = accepted(readPoint(role, feature, path), problems);
      if (part !== null) points.push({ part, path });
    } else {
      const part = accepted(readPart(routeCodec, feature, path), problems);
      if (part !== null) routes.push({ part, path });
    }
  }
  const read = points.length + routes.length + areas.length;
  return { points, routes, areas, allFeaturesRead: Array.isArray(features) && read === list.length };
}

function listOf(features: JsonValue | undefined, problems: Problem[]): readonly JsonValue[] {
  const isList = Array.isArray(features);
  if (isList && features.length <= mostFeatures) return features;
  const code = features === undefined ? 'missing-key' : isList ? 'wrong-count' : 'wrong-type';
  problems.push({ code, path: 'features', found: describe(features), expected: `a list of ${mostFeatures} at most` });
  return [];
}

function roleOf(feature: JsonValue, path: string): Outcome<PointRole | RouteRole | typeof areaRole> {
  const properties = member(feature, 'properties');
  const role = member(properties, 'role');
  if (typeof role === 'string' && (role === areaRole || isPointRole(role) || isRouteRole(role)))
    return { ok: true, value: role };
  const code = role === undefined ? 'missing-key' : 'unknown-value';
  const expected = 'the role of a point, of a route or of an area to avoid';
  return { ok: false, problems: [{ code, path: `${path}.properties.role`, found: describe(role), expected }] };
}

function member(value: JsonValue | undefined, key: string): JsonValue | undefined {
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined;
  return Object.entries(value).find(([name]) => name === key)?.[1];
}

/** Reads a point by the form of its role. */
export function readPoint(role: PointRole, value: unknown, path: string): Outcome<PlanPoint> {
  switch (role) {
    case 'source':
      return readPart(pointCodecs.source, value, path);
    case 'standpipe':
      return readPart(pointCodecs.standpipe, value, path);
    case 'pump':
      return readPart(pointCodecs.pump, value, path);
    case 'tank':
      return readPart(pointCodecs.tank, value, path);
    case 'trough':
      return readPart(pointCodecs.trough, value, path);
  }
}
