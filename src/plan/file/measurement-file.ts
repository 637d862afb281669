import * as z from 'zod/mini';
import type { Measurement, RunRecord } from '../model/plan.ts';
import { type FileOf, flow_L_per_min, identifier, line, type PartCodec, prose, within } from './fields.ts';
import { asIs, litresPerMinute, millimetres, orNull } from './scale.ts';

/** A day of the calendar, as ISO 8601 writes it. */
const day = z.string().check(z.regex(/^\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])$/));
const head_m = within(-20, 5000);

const recordSchema = z.strictObject({
  date: day,
  by: line,
  level_m: z.nullable(within(-20, 200)),
  beats_per_min: z.nullable(within(0, 1000)),
  waste_L_per_min: z.nullable(flow_L_per_min),
  delivery_L_per_min: z.nullable(flow_L_per_min),
  delivery_read_at: z.enum(['pump', 'tank']),
  gauge_rest_m: z.nullable(head_m),
  gauge_running_m: z.nullable(head_m),
  gauge_swing_m: z.nullable(within(0, 5000)),
  valve_weight_kg: z.nullable(within(0, 1000)),
  valve_stroke_mm: z.nullable(within(0, 1000)),
  note: prose,
});

export const recordCodec: PartCodec<RunRecord, FileOf<typeof recordSchema>> = {
  schema: recordSchema,
  toFile: (record) => ({
    date: record.date,
    by: record.by,
    level_m: orNull(asIs.toFile)(record.level),
    beats_per_min: orNull(asIs.toFile)(record.beatsPerMinute),
    waste_L_per_min: orNull(litresPerMinute.toFile)(record.waste),
    delivery_L_per_min: orNull(litresPerMinute.toFile)(record.delivery),
    delivery_read_at: record.deliveryReadAt,
    gauge_rest_m: orNull(asIs.toFile)(record.gaugeRest),
    gauge_running_m: orNull(asIs.toFile)(record.gaugeRunning),
    gauge_swing_m: orNull(asIs.toFile)(record.gaugeSwing),
    valve_weight_kg: orNull(asIs.toFile)(record.valveWeight),
    valve_stroke_mm: orNull(millimetres.toFile)(record.valveStroke),
    note: record.note,
  }),
  fromFile: (file) => ({
    date: file.date,
    by: file.by,
    level: orNull(asIs.fromFile)(file.level_m),
    beatsPerMinute: orNull(asIs.fromFile)(file.beats_per_min),
    waste: orNull(litresPerMinute.fromFile)(file.waste_L_per_min),
    delivery: orNull(litresPerMinute.fromFile)(file.delivery_L_per_min),
    deliveryReadAt: file.delivery_read_at,
    gaugeRest: orNull(asIs.fromFile)(file.gauge_rest_m),
    gaugeRunning: orNull(asIs.fromFile)(file.gauge_running_m),
    gaugeSwing: orNull(asIs.fromFile)(file.gauge_swing_m),
    valveWeight: orNull(asIs.fromFile)(file.valve_weight_kg),
    valveStroke: orNull(millimetres.fromFile)(file.valve_stroke_mm),
    note: file.note,
  }),
};

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
