import * as z from 'zod/mini';
import type { HerdGroup, YieldReading } from '../model/plan.ts';
import type { FileOf, PartCodec } from './fields.ts';
import { flow_L_per_min, line, positive, rowName, volume_L, whole } from './fields.ts';
import { asIs, litres, litresPerMinute } from './scale.ts';

const readingSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('timed'),
    volume_L: positive(10_000_000),
    volume_plus_minus_L: volume_L,
    times_s: z.array(positive(1_000_000)).check(z.minLength(1), z.maxLength(200)),
  }),
  z.strictObject({ kind: z.literal('stated'), flow_L_per_min, plus_minus_L_per_min: flow_L_per_min }),
]);

export const readingCodec: PartCodec<YieldReading, FileOf<typeof readingSchema>> = {
  schema: readingSchema,
  toFile: (reading) =>
    reading.kind === 'timed'
      ? {
          kind: 'timed',
          volume_L: litres.toFile(reading.volume),
          volume_plus_minus_L: litres.toFile(reading.volumePlusMinus),
          times_s: reading.times.map(asIs.toFile),
        }
      : {
          kind: 'stated',
          flow_L_per_min: litresPerMinute.toFile(reading.flow),
          plus_minus_L_per_min: litresPerMinute.toFile(reading.plusMinus),
        },
  fromFile: (file) =>
    file.kind === 'timed'
      ? {
          kind: 'timed',
          volume: litres.fromFile(file.volume_L),
          volumePlusMinus: litres.fromFile(file.volume_plus_minus_L),
          times: file.times_s.map(asIs.fromFile),
        }
      : {
          kind: 'stated',
          flow: litresPerMinute.fromFile(file.flow_L_per_min),
          plusMinus: litresPerMinute.fromFile(file.plus_minus_L_per_min),
        },
};

const heads = whole(1, 1_000_000);

const herdSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('row'), row: rowName, count: heads }),
  z.strictObject({ kind: z.literal('own'), label: line, need_L_per_day: positive(100_000), count: heads }),
]);

export const herdCodec: PartCodec<HerdGroup, FileOf<typeof herdSchema>> = {
  schema: herdSchema,
  toFile: (group) =>
    group.kind === 'row'
      ? { kind: 'row', row: group.row, count: group.count }
      : { kind: 'own', label: group.label, need_L_per_day: litres.toFile(group.needPerDay), count: group.count },
  fromFile: (file) =>
    file.kind === 'row'
      ? { kind: 'row', row: file.row, count: file.count }
      : { kind: 'own', label: file.label, needPerDay: litres.fromFile(file.need_L_per_day), count: file.count },
};
