import * as z from 'zod/mini';
import type { RunRecord } from '../model/plan.ts';
import type { FileOf, PartCodec } from './fields.ts';
import { flow_L_per_min, line, prose, within } from './fields.ts';
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
