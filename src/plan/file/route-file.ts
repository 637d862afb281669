import * as z from 'zod/mini';
import type { PlanRoute, RouteRole } from '../model/plan.ts';
import type { FileOf, PartCodec } from './fields.ts';
import {
  coordinates,
  fromCoordinates,
  identifier,
  line,
  positive,
  prose,
  rowName,
  toCoordinates,
  whole,
  within,
} from './fields.ts';
import { kilopascals } from './scale.ts';

const routeRoles = ['supply', 'drive', 'delivery', 'gravity'] as const satisfies readonly RouteRole[];

export function isRouteRole(role: string): role is RouteRole {
  return routeRoles.some((known) => known === role);
}

export const routeSchema = z.strictObject({
  type: z.literal('Feature'),
  id: identifier,
  geometry: z.strictObject({
    type: z.literal('LineString'),
    coordinates: z.array(coordinates).check(z.minLength(2), z.maxLength(10_000)),
  }),
  properties: z.strictObject({
    role: z.enum(routeRoles),
    name: line,
    note: prose,
    from: identifier,
    to: identifier,
    pipe: identifier,
    fittings: z.array(z.strictObject({ fitting: rowName, count: whole(1, 1000) })).check(z.maxLength(100)),
    summits: z.enum(['closed', 'vented']),
    trench_depth_m: z.exactOptional(within(0, 10)),
    relief_valve_kPa: z.exactOptional(positive(100_000)),
  }),
});

export const routeCodec: PartCodec<PlanRoute, FileOf<typeof routeSchema>> = {
  schema: routeSchema,
  toFile: (route) => ({
    type: 'Feature',
    id: route.id,
    geometry: { type: 'LineString', coordinates: route.vertices.map(toCoordinates) },
    properties: {
      role: route.role,
      name: route.name,
      note: route.note,
      from: route.from,
      to: route.to,
      pipe: route.pipe,
      fittings: route.fittings.map(({ fitting, count }) => ({ fitting, count })),
      summits: route.summits,
      ...(route.trenchDepth !== undefined && { trench_depth_m: route.trenchDepth }),
      ...(route.relief !== undefined && { relief_valve_kPa: kilopascals.toFile(route.relief) }),
    },
  }),
  fromFile: ({ id, geometry, properties }) => ({
    id,
    role: properties.role,
    name: properties.name,
    from: properties.from,
    to: properties.to,
    vertices: geometry.coordinates.map(fromCoordinates),
    pipe: properties.pipe,
    fittings: properties.fittings,
    summits: properties.summits,
    ...(properties.trench_depth_m !== undefined && { trenchDepth: properties.trench_depth_m }),
    ...(properties.relief_valve_kPa !== undefined && { relief: kilopascals.fromFile(properties.relief_valve_kPa) }),
    note: properties.note,
  }),
};
