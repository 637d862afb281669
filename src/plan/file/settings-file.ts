import * as z from 'zod/mini';
import type { PlanSettings } from '../model/plan-draft.ts';
import type { FileOf, PartCodec } from './fields.ts';
import { line, share, within } from './fields.ts';
import { measurementCodec, recordCodec } from './measurement-file.ts';
import { materialsCodec, monthCodec, tilesCodec } from './owner-file.ts';
import { pipeCodec } from './pipe-file.ts';
import { pumpCodec } from './pump-file.ts';
import { asIs, orNull } from './scale.ts';
import { keptAnswerCodec, terrainCodec } from './terrain-file.ts';
import { herdCodec, readingCodec } from './water-file.ts';

/** The version of the plan file that this program writes. */
export const planVersion = 1;

const settingsSchema = z.strictObject({
  version: z.literal(planVersion),
  name: line,
  units: z.enum(['metric', 'us']),
  water_temperature_C: within(0, 60),
  yield_readings: z.array(readingCodec.schema).check(z.maxLength(100)),
  dry_share: z.nullable(share),
  dry_share_plus_minus: z.exactOptional(share),
  left_in_stream: z.nullable(share),
  herd: z.array(herdCodec.schema).check(z.maxLength(100)),
  pump: z.nullable(pumpCodec.schema),
  pipes: z.array(pipeCodec.schema).check(z.maxLength(1000)),
  year: z.array(monthCodec.schema).check(z.maxLength(12)),
  measurements: z.array(measurementCodec.schema).check(z.maxLength(5000)),
  records: z.exactOptional(z.array(recordCodec.schema).check(z.minLength(1), z.maxLength(1000))),
  materials: materialsCodec.schema,
  map_tiles: z.nullable(tilesCodec.schema),
  confidence: within(0.5, 0.999),
  terrain: z.nullable(terrainCodec.schema),
  last_answer: z.exactOptional(keptAnswerCodec.schema),
});

export const settingsCodec: PartCodec<PlanSettings, FileOf<typeof settingsSchema>> = {
  schema: settingsSchema,
  toFile: (plan) => ({
    version: planVersion,
    name: plan.name,
    units: plan.units,
    water_temperature_C: asIs.toFile(plan.waterTemperature),
    yield_readings: plan.yieldReadings.map(readingCodec.toFile),
    dry_share: orNull(asIs.toFile)(plan.dryShare),
    ...(plan.dryShareDoubt !== undefined && { dry_share_plus_minus: plan.dryShareDoubt }),
    left_in_stream: orNull(asIs.toFile)(plan.leftInStream),
    herd: plan.herd.map(herdCodec.toFile),
    pump: orNull(pumpCodec.toFile)(plan.pump),
    pipes: plan.pipes.map(pipeCodec.toFile),
    year: plan.year.map(monthCodec.toFile),
    measurements: plan.measurements.map(measurementCodec.toFile),
    ...(plan.records === undefined || plan.records.length === 0
      ? {}
      : { records: plan.records.map(recordCodec.toFile) }),
    materials: materialsCodec.toFile(plan.materials),
    map_tiles: orNull(tilesCodec.toFile)(plan.mapTiles),
    confidence: asIs.toFile(plan.confidence),
    terrain: orNull(terrainCodec.toFile)(plan.terrain),
    ...(plan.lastAnswer === undefined ? {} : { last_answer: keptAnswerCodec.toFile(plan.lastAnswer) }),
  }),
  fromFile: (file) => ({
    name: file.name,
    units: file.units,
    waterTemperature: asIs.fromFile(file.water_temperature_C),
    pipes: file.pipes.map(pipeCodec.fromFile),
    pump: orNull(pumpCodec.fromFile)(file.pump),
    yieldReadings: file.yield_readings.map(readingCodec.fromFile),
    dryShare: orNull(asIs.fromFile)(file.dry_share),
    ...(file.dry_share_plus_minus !== undefined && { dryShareDoubt: file.dry_share_plus_minus }),
    leftInStream: orNull(asIs.fromFile)(file.left_in_stream),
    herd: file.herd.map(herdCodec.fromFile),
    year: file.year.map(monthCodec.fromFile),
    measurements: file.measurements.map(measurementCodec.fromFile),
    ...(file.records === undefined || file.records.length === 0
      ? {}
      : { records: file.records.map(recordCodec.fromFile) }),
    materials: materialsCodec.fromFile(file.materials),
    mapTiles: orNull(tilesCodec.fromFile)(file.map_tiles),
    confidence: asIs.fromFile(file.confidence),
    terrain: orNull(terrainCodec.fromFile)(file.terrain),
    ...(file.last_answer === undefined ? {} : { lastAnswer: keptAnswerCodec.fromFile(file.last_answer) }),
  }),
};
