import * as z from 'zod/mini';
import { areaSchema } from './area-file.ts';
import { pumpSchema, sourceSchema, standpipeSchema, tankSchema, troughSchema } from './point-schema.ts';
import { mostFeatures } from './read-features.ts';
import { routeSchema } from './route-file.ts';
import { settingsCodec } from './settings-file.ts';

const features = z.union([
  sourceSchema,
  standpipeSchema,
  pumpSchema,
  tankSchema,
  troughSchema,
  routeSchema,
  areaSchema,
]);

const planSchema = z.strictObject({
  type: z.literal('FeatureCollection'),
  rillwright: settingsCodec.schema,
  features: z.array(features).check(z.maxLength(mostFeatures)),
});

/**
 * The form of a plan file as a JSON Schema (draft 2020-12). What a schema cannot say (references between parts, ends on
 * their points, rows of the handbook) the reader checks on top.
 */
export function planJsonSchema(): object {
  return { ...z.toJSONSchema(planSchema), title: 'Rillwright plan, version 1' };
}
