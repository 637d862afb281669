import * as z from 'zod/mini';
import type { MeasuredRun } from '../model/plan.ts';
import { flow_L_per_min, positive } from './fields.ts';
import type { FileOf, PartCodec } from './part.ts';
import { asIs, litresPerMinute } from './scale.ts';

const measuredRunSchema = z.strictObject({
  drive_flow_L_per_min: positive(1_000_000),
  delivery_L_per_min: flow_L_per_min,
  fall_m: positive(1000),
  delivery_head_m: positive(2000),
});

export const measuredRunCodec: PartCodec<MeasuredRun, FileOf<typeof measuredRunSchema>> = {
  schema: measuredRunSchema,
  toFile: (run) => ({
    drive_flow_L_per_min: litresPerMinute.toFile(run.driveFlow),
    delivery_L_per_min: litresPerMinute.toFile(run.delivery),
    fall_m: asIs.toFile(run.fall),
    delivery_head_m: asIs.toFile(run.deliveryHead),
  }),
  fromFile: (file) => ({
    driveFlow: litresPerMinute.fromFile(file.drive_flow_L_per_min),
    delivery: litresPerMinute.fromFile(file.delivery_L_per_min),
    fall: asIs.fromFile(file.fall_m),
    deliveryHead: asIs.fromFile(file.delivery_head_m),
  }),
};
