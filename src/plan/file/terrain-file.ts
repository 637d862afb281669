import * as z from 'zod/mini';
import type { HeightConstants, KeptAnswer, TerrainReference } from '../model/plan.ts';
import type { FileOf, PartCodec } from './fields.ts';
import { fileName, positive, prose, rowName, within } from './fields.ts';
import { asIs, orNull } from './scale.ts';

const deviation = within(0, 1000);
const reach = positive(1_000_000);
const doubt = within(0, 100);

const constantsSchema = z.strictObject({
  nugget_m: deviation,
  near_m: deviation,
  near_range_m: reach,
  far_m: deviation,
  far_range_m: reach,
  placement_m: deviation,
  smoothing_doubt: z.exactOptional(doubt),
});

const constants: PartCodec<HeightConstants, FileOf<typeof constantsSchema>> = {
  schema: constantsSchema,
  toFile: (c) => ({
    nugget_m: asIs.toFile(c.nugget),
    near_m: asIs.toFile(c.near),
    near_range_m: asIs.toFile(c.nearRange),
    far_m: asIs.toFile(c.far),
    far_range_m: asIs.toFile(c.farRange),
    placement_m: asIs.toFile(c.placement),
    ...(c.smoothingDoubt === undefined ? {} : { smoothing_doubt: c.smoothingDoubt }),
  }),
  fromFile: (file) => ({
    nugget: asIs.fromFile(file.nugget_m),
    near: asIs.fromFile(file.near_m),
    nearRange: asIs.fromFile(file.near_range_m),
    far: asIs.fromFile(file.far_m),
    farRange: asIs.fromFile(file.far_range_m),
    placement: asIs.fromFile(file.placement_m),
    ...(file.smoothing_doubt === undefined ? {} : { smoothingDoubt: file.smoothing_doubt }),
  }),
};

const answerSchema = z.strictObject({
  on: z.string().check(z.regex(/^\d{4}-\d{2}-\d{2}$/)),
  verdict: z.nullable(z.enum(['holds', 'measure', 'fails'])),
  files: z.array(fileName).check(z.minLength(1), z.maxLength(100)),
  sentences: z.array(prose).check(z.minLength(1), z.maxLength(10)),
});

export const keptAnswerCodec: PartCodec<KeptAnswer, FileOf<typeof answerSchema>> = {
  schema: answerSchema,
  toFile: ({ on, verdict, files, sentences }) => ({ on, verdict, files: [...files], sentences: [...sentences] }),
  fromFile: ({ on, verdict, files, sentences }) => ({ on, verdict, files, sentences }),
};

const terrainSchema = z.strictObject({
  files: z.array(fileName).check(z.minLength(1), z.maxLength(100)),
  accuracy: z.nullable(rowName),
  constants: z.nullable(constantsSchema),
});

export const terrainCodec: PartCodec<TerrainReference, FileOf<typeof terrainSchema>> = {
  schema: terrainSchema,
  toFile: (terrain) => ({
    files: [...terrain.files],
    accuracy: terrain.accuracy,
    constants: orNull(constants.toFile)(terrain.constants),
  }),
  fromFile: (file) => ({
    files: file.files,
    accuracy: file.accuracy,
    constants: orNull(constants.fromFile)(file.constants),
  }),
};
