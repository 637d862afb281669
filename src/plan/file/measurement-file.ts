import * as z from 'zod/mini';
import type { Measurement } from '../model/plan.ts';
import type { FileOf, PartCodec } from './fields.ts';
import { identifier, line, within } from './fields.ts';
import { asIs } from './scale.ts';

const plus_minus_m = within(0, 1000);
const standing = z.exactOptional(z.enum(['kept', 'set-aside']));

const measurementSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('height'),
    point: identifier,
    height_m: within(-1000, 10_000),
    plus_minus_m,
    survey: z.exactOptional(line),
    standing,
  }),
  z.strictObject({
    kind: z.literal('difference'),
    from: identifier,
    to: identifier,
    rise_m: within(-5000, 5000),
    plus_minus_m,
    standing,
  }),
]);

export const measurementCodec: PartCodec<Measurement, FileOf<typeof measurementSchema>> = {
  schema: measurementSchema,
  toFile: (taken) => ({
    ...(taken.kind === 'height'
      ? {
          kind: 'height',
          point: taken.point,
          height_m: asIs.toFile(taken.height),
          plus_minus_m: asIs.toFile(taken.plusMinus),
          ...(taken.survey !== undefined && { survey: taken.survey }),
        }
      : {
          kind: 'difference',
          from: taken.from,
          to: taken.to,
          rise_m: asIs.toFile(taken.rise),
          plus_minus_m: asIs.toFile(taken.plusMinus),
        }),
    ...(taken.standing !== undefined && { standing: taken.standing }),
  }),
  fromFile: (file) => ({
    ...(file.kind === 'height'
      ? {
          kind: 'height',
          point: file.point,
          height: asIs.fromFile(file.height_m),
          plusMinus: asIs.fromFile(file.plus_minus_m),
          ...(file.survey !== undefined && { survey: file.survey }),
        }
      : {
          kind: 'difference',
          from: file.from,
          to: file.to,
          rise: asIs.fromFile(file.rise_m),
          plusMinus: asIs.fromFile(file.plus_minus_m),
        }),
    ...(file.standing !== undefined && { standing: file.standing }),
  }),
};
