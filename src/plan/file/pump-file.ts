import * as z from 'zod/mini';
import type { MeasuredRun, PhysicalRam, PumpChoice, PumpSheet } from '../model/plan.ts';
import type { FileOf, PartCodec } from './fields.ts';
import { bore_mm, efficiency, flow_L_per_min, line, positive, whole, within } from './fields.ts';
import { asIs, litres, litresPerMinute, millimetres, orNull } from './scale.ts';

const measuredRunSchema = z.strictObject({
  drive_flow_L_per_min: positive(1_000_000),
  delivery_L_per_min: flow_L_per_min,
  fall_m: positive(1000),
  delivery_head_m: positive(2000),
  plus_minus: z.exactOptional(positive(2)),
});

const measuredRunCodec: PartCodec<MeasuredRun, FileOf<typeof measuredRunSchema>> = {
  schema: measuredRunSchema,
  toFile: (run) => ({
    drive_flow_L_per_min: litresPerMinute.toFile(run.driveFlow),
    delivery_L_per_min: litresPerMinute.toFile(run.delivery),
    fall_m: asIs.toFile(run.fall),
    delivery_head_m: asIs.toFile(run.deliveryHead),
    ...(run.plusMinus !== undefined && { plus_minus: asIs.toFile(run.plusMinus) }),
  }),
  fromFile: (file) => ({
    driveFlow: litresPerMinute.fromFile(file.drive_flow_L_per_min),
    delivery: litresPerMinute.fromFile(file.delivery_L_per_min),
    fall: asIs.fromFile(file.fall_m),
    deliveryHead: asIs.fromFile(file.delivery_head_m),
    ...(file.plus_minus !== undefined && { plusMinus: asIs.fromFile(file.plus_minus) }),
  }),
};

/** A pump by itself, which the file leaves unsaid. */
const ONE = 1;

const count = whole(ONE, 20);
const countToFile = (pump: PumpChoice) => (pump.count === ONE ? {} : { count: pump.count });

const lossCoefficient = within(0, 10_000);
/** An open waste valve loses something: without loss no drag would ever lift it, and no weight could be said. */
const wasteLossCoefficient = within(0.001, 10_000);
/** Without air a delivery would stand still between two beats; a bottle cap of it is the least. */
const air_chamber_L = within(0.01, 10_000_000);
const measured = z.nullable(measuredRunCodec.schema);
const more_runs = z.exactOptional(z.array(measuredRunCodec.schema).check(z.maxLength(100)));

const moreToFile = ({ moreRuns }: PumpChoice) =>
  moreRuns === undefined ? {} : { more_runs: moreRuns.map(measuredRunCodec.toFile) };

const moreFromFile = (runs: readonly FileOf<typeof measuredRunSchema>[] | undefined) =>
  runs === undefined ? {} : { moreRuns: runs.map(measuredRunCodec.fromFile) };

const sheetSchema = z.strictObject({
  kind: z.literal('sheet'),
  label: line,
  count: z.exactOptional(count),
  drive_bore_mm: bore_mm,
  intake_least_L_per_min: flow_L_per_min,
  intake_most_L_per_min: positive(1_000_000),
  intake_set_L_per_min: z.nullable(positive(1_000_000)),
  efficiency: z.nullable(z.strictObject({ low: efficiency, likely: efficiency, high: efficiency })),
  efficiency_curve: z.array(z.strictObject({ head_over_fall: positive(1000), efficiency })).check(z.maxLength(100)),
  least_delivery_head_m: z.nullable(within(0, 1000)),
  measured,
  more_runs,
});

const ramSchema = z.strictObject({
  kind: z.literal('ram'),
  label: line,
  count: z.exactOptional(count),
  drive_bore_mm: bore_mm,
  waste_valve_loss: wasteLossCoefficient,
  check_valve_loss: lossCoefficient,
  valve_weight_head_m: z.nullable(positive(1000)),
  valve_stroke_mm: positive(1000),
  check_lag_s: within(0, 10),
  air_chamber_L,
  measured,
  more_runs,
});

const pumpChoiceSchema = z.discriminatedUnion('kind', [sheetSchema, ramSchema]);

function sheetToFile(sheet: PumpSheet): FileOf<typeof sheetSchema> {
  return {
    kind: 'sheet',
    label: sheet.label,
    ...countToFile(sheet),
    drive_bore_mm: millimetres.toFile(sheet.driveBore),
    intake_least_L_per_min: litresPerMinute.toFile(sheet.intakeLeast),
    intake_most_L_per_min: litresPerMinute.toFile(sheet.intakeMost),
    intake_set_L_per_min: orNull(litresPerMinute.toFile)(sheet.intakeSet),
    efficiency: sheet.efficiency && { ...sheet.efficiency },
    efficiency_curve: sheet.efficiencyCurve.map((p) => ({ head_over_fall: p.headOverFall, efficiency: p.efficiency })),
    least_delivery_head_m: orNull(asIs.toFile)(sheet.leastDeliveryHead),
    measured: orNull(measuredRunCodec.toFile)(sheet.measured),
    ...moreToFile(sheet),
  };
}

function sheetFromFile(file: FileOf<typeof sheetSchema>): PumpSheet {
  return {
    kind: 'sheet',
    label: file.label,
    count: file.count ?? ONE,
    driveBore: millimetres.fromFile(file.drive_bore_mm),
    intakeLeast: litresPerMinute.fromFile(file.intake_least_L_per_min),
    intakeMost: litresPerMinute.fromFile(file.intake_most_L_per_min),
    intakeSet: orNull(litresPerMinute.fromFile)(file.intake_set_L_per_min),
    efficiency: file.efficiency,
    efficiencyCurve: file.efficiency_curve.map((p) => ({ headOverFall: p.head_over_fall, efficiency: p.efficiency })),
    leastDeliveryHead: orNull(asIs.fromFile)(file.least_delivery_head_m),
    measured: orNull(measuredRunCodec.fromFile)(file.measured),
    ...moreFromFile(file.more_runs),
  };
}

function ramToFile(ram: PhysicalRam): FileOf<typeof ramSchema> {
  return {
    kind: 'ram',
    label: ram.label,
    ...countToFile(ram),
    drive_bore_mm: millimetres.toFile(ram.driveBore),
    waste_valve_loss: asIs.toFile(ram.wasteValveLoss),
    check_valve_loss: asIs.toFile(ram.checkValveLoss),
    valve_weight_head_m: orNull(asIs.toFile)(ram.valveWeightHead),
    valve_stroke_mm: millimetres.toFile(ram.valveStroke),
    check_lag_s: asIs.toFile(ram.checkLag),
    air_chamber_L: litres.toFile(ram.airChamber),
    measured: orNull(measuredRunCodec.toFile)(ram.measured),
    ...moreToFile(ram),
  };
}

function ramFromFile(file: FileOf<typeof ramSchema>): PhysicalRam {
  return {
    kind: 'ram',
    label: file.label,
    count: file.count ?? ONE,
    driveBore: millimetres.fromFile(file.drive_bore_mm),
    wasteValveLoss: asIs.fromFile(file.waste_valve_loss),
    checkValveLoss: asIs.fromFile(file.check_valve_loss),
    valveWeightHead: orNull(asIs.fromFile)(file.valve_weight_head_m),
    valveStroke: millimetres.fromFile(file.valve_stroke_mm),
    checkLag: asIs.fromFile(file.check_lag_s),
    airChamber: litres.fromFile(file.air_chamber_L),
    measured: orNull(measuredRunCodec.fromFile)(file.measured),
    ...moreFromFile(file.more_runs),
  };
}

export const pumpCodec: PartCodec<PumpChoice, FileOf<typeof pumpChoiceSchema>> = {
  schema: pumpChoiceSchema,
  toFile: (pump) => (pump.kind === 'sheet' ? sheetToFile(pump) : ramToFile(pump)),
  fromFile: (file) => (file.kind === 'sheet' ? sheetFromFile(file) : ramFromFile(file)),
};
