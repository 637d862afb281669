import * as z from 'zod/mini';
import type { PlanArea } from '../model/plan.ts';
import {
  coordinates,
  type FileOf,
  fromCoordinates,
  identifier,
  line,
  type PartCodec,
  prose,
  toCoordinates,
} from './fields.ts';

/** The role of an area among the features of a plan file. */
export const areaRole = 'avoid';

const MOST_CORNERS = 1000;
const MOST_GATES = 100;

export const areaSchema = z.strictObject({
  type: z.literal('Feature'),
  id: identifier,
  geometry: z.strictObject({
    type: z.literal('Polygon'),
    // One ring, closed as GeoJSON wants it: the first corner again at the end.
    coordinates: z.tuple([z.array(coordinates).check(z.minLength(4), z.maxLength(MOST_CORNERS + 1))]),
  }),
  properties: z.strictObject({
    role: z.literal(areaRole),
    name: line,
    note: prose,
    gates: z.array(coordinates).check(z.maxLength(MOST_GATES)),
  }),
});

/** What no line may cross, as a polygon with its gates. */
export const areaCodec: PartCodec<PlanArea, FileOf<typeof areaSchema>> = {
  schema: areaSchema,
  toFile: ({ id, name, note, outline, gates }) => ({
    type: 'Feature',
    id,
    geometry: { type: 'Polygon', coordinates: [[...outline, ...outline.slice(0, 1)].map(toCoordinates)] },
    properties: { role: areaRole, name, note, gates: gates.map(toCoordinates) },
  }),
  fromFile: ({ id, geometry, properties }) => ({
    id,
    name: properties.name,
    note: properties.note,
    outline: geometry.coordinates[0].slice(0, -1).map(fromCoordinates),
    gates: properties.gates.map(fromCoordinates),
  }),
};
