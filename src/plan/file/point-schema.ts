import * as z from 'zod/mini';
import {
  bore_mm,
  coordinates,
  heightAboveGround,
  identifier,
  line,
  positive,
  prose,
  share,
  volume_L,
} from './fields.ts';

const place = z.strictObject({ type: z.literal('Point'), coordinates });
const common = { name: line, note: prose };

function feature<Properties extends z.ZodMiniType>(properties: Properties) {
  return z.strictObject({ type: z.literal('Feature'), id: identifier, geometry: place, properties });
}

export const sourceSchema = feature(
  z.strictObject({
    role: z.literal('source'),
    ...common,
    water_level_m: heightAboveGround,
    storage_L: volume_L,
  }),
);

export const standpipeSchema = feature(
  z.strictObject({
    role: z.literal('standpipe'),
    ...common,
    inlet_height_m: heightAboveGround,
    top_height_m: heightAboveGround,
    bore_mm,
  }),
);

export const pumpSchema = feature(
  z.strictObject({ role: z.literal('pump'), ...common, waste_valve_height_m: heightAboveGround }),
);

export const tankSchema = feature(
  z.strictObject({
    role: z.literal('tank'),
    ...common,
    inlet_height_m: heightAboveGround,
    outlet_height_m: heightAboveGround,
    volume_L,
    standing: z.enum(['candidate', 'kept', 'set-aside']),
  }),
);

export const troughSchema = feature(
  z.strictObject({
    role: z.literal('trough'),
    ...common,
    valve_height_m: heightAboveGround,
    volume_L,
    herd_share: z.exactOptional(share),
    valve_flow_L_per_min: z.exactOptional(positive(1_000_000)),
  }),
);
