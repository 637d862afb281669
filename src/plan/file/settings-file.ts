import * as z from 'zod/mini';
import type { HeightConstants, Measurement, PlanPipe, TerrainReference } from '../model/plan.ts';
import type { PlanSettings } from '../model/plan-draft.ts';
import type { FileOf, PartCodec } from './fields.ts';
import { bore_mm, fileName, identifier, line, positive, rowName, share, within } from './fields.ts';
import { materialsCodec, monthCodec, tilesCodec } from './owner-file.ts';
import { pumpCodec } from './pump-file.ts';
import { asIs, kilopascals, millimetres, orNull } from './scale.ts';
import { herdCodec, readingCodec } from './water-file.ts';

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

const terrainSchema = z.strictObject({
  files: z.array(fileName).check(z.minLength(1), z.maxLength(100)),
  accuracy: z.nullable(rowName),
  constants: z.nullable(constantsSchema),
});

const terrainCodec: PartCodec<TerrainReference, FileOf<typeof terrainSchema>> = {
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

const plus_minus_m = within(0, 1000);

const measurementSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('height'), point: identifier, height_m: within(-1000, 10_000), plus_minus_m }),
  z.strictObject({
    kind: z.literal('difference'),
    from: identifier,
    to: identifier,
    rise_m: within(-5000, 5000),
    plus_minus_m,
  }),
]);

const measurementCodec: PartCodec<Measurement, FileOf<typeof measurementSchema>> = {
  schema: measurementSchema,
  toFile: (taken) =>
    taken.kind === 'height'
      ? {
          kind: 'height',
          point: taken.point,
          height_m: asIs.toFile(taken.height),
          plus_minus_m: asIs.toFile(taken.plusMinus),
        }
      : {
          kind: 'difference',
          from: taken.from,
          to: taken.to,
          rise_m: asIs.toFile(taken.rise),
          plus_minus_m: asIs.toFile(taken.plusMinus),
        },
  fromFile: (file) =>
    file.kind === 'height'
      ? {
          kind: 'height',
          point: file.point,
          height: asIs.fromFile(file.height_m),
          plusMinus: asIs.fromFile(file.plus_minus_m),
        }
      : {
          kind: 'difference',
          from: file.from,
          to: file.to,
          rise: asIs.fromFile(file.rise_m),
          plusMinus: asIs.fromFile(file.plus_minus_m),
        },
};

const pipeSchema = z.discriminatedUnion('kind', [
  z.strictObject({ id: identifier, kind: z.literal('row'), row: rowName }),
  z.strictObject({
    id: identifier,
    kind: z.literal('own'),
    label: line,
    material: z.enum(['steel', 'copper', 'pvc', 'pe']),
    bore_mm,
    wall_mm: positive(500),
    roughness_mm: within(0, 10),
    rating_kPa: z.nullable(positive(100_000)),
  }),
]);

const pipeCodec: PartCodec<PlanPipe, FileOf<typeof pipeSchema>> = {
  schema: pipeSchema,
  toFile: (pipe) =>
    pipe.kind === 'row'
      ? { id: pipe.id, kind: 'row', row: pipe.row }
      : {
          id: pipe.id,
          kind: 'own',
          label: pipe.label,
          material: pipe.material,
          bore_mm: millimetres.toFile(pipe.bore),
          wall_mm: millimetres.toFile(pipe.wall),
          roughness_mm: millimetres.toFile(pipe.roughness),
          rating_kPa: orNull(kilopascals.toFile)(pipe.rating),
        },
  fromFile: (file) =>
    file.kind === 'row'
      ? { id: file.id, kind: 'row', row: file.row }
      : {
          id: file.id,
          kind: 'own',
          label: file.label,
          material: file.material,
          bore: millimetres.fromFile(file.bore_mm),
          wall: millimetres.fromFile(file.wall_mm),
          roughness: millimetres.fromFile(file.roughness_mm),
          rating: orNull(kilopascals.fromFile)(file.rating_kPa),
        },
};

/** The version of the plan file that this program writes. */
export const planVersion = 1;

const settingsSchema = z.strictObject({
  version: z.literal(planVersion),
  name: line,
  units: z.enum(['metric', 'us']),
  water_temperature_C: within(0, 60),
  yield_readings: z.array(readingCodec.schema).check(z.maxLength(100)),
  dry_share: z.nullable(share),
  left_in_stream: z.nullable(share),
  herd: z.array(herdCodec.schema).check(z.maxLength(100)),
  pump: z.nullable(pumpCodec.schema),
  pipes: z.array(pipeCodec.schema).check(z.maxLength(1000)),
  year: z.array(monthCodec.schema).check(z.maxLength(12)),
  measurements: z.array(measurementCodec.schema).check(z.maxLength(5000)),
  materials: materialsCodec.schema,
  map_tiles: z.nullable(tilesCodec.schema),
  confidence: within(0.5, 0.999),
  terrain: z.nullable(terrainCodec.schema),
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
    left_in_stream: orNull(asIs.toFile)(plan.leftInStream),
    herd: plan.herd.map(herdCodec.toFile),
    pump: orNull(pumpCodec.toFile)(plan.pump),
    pipes: plan.pipes.map(pipeCodec.toFile),
    year: plan.year.map(monthCodec.toFile),
    measurements: plan.measurements.map(measurementCodec.toFile),
    materials: materialsCodec.toFile(plan.materials),
    map_tiles: orNull(tilesCodec.toFile)(plan.mapTiles),
    confidence: asIs.toFile(plan.confidence),
    terrain: orNull(terrainCodec.toFile)(plan.terrain),
  }),
  fromFile: (file) => ({
    name: file.name,
    units: file.units,
    waterTemperature: asIs.fromFile(file.water_temperature_C),
    pipes: file.pipes.map(pipeCodec.fromFile),
    pump: orNull(pumpCodec.fromFile)(file.pump),
    yieldReadings: file.yield_readings.map(readingCodec.fromFile),
    dryShare: orNull(asIs.fromFile)(file.dry_share),
    leftInStream: orNull(asIs.fromFile)(file.left_in_stream),
    herd: file.herd.map(herdCodec.fromFile),
    year: file.year.map(monthCodec.fromFile),
    measurements: file.measurements.map(measurementCodec.fromFile),
    materials: materialsCodec.fromFile(file.materials),
    mapTiles: orNull(tilesCodec.fromFile)(file.map_tiles),
    confidence: asIs.fromFile(file.confidence),
    terrain: orNull(terrainCodec.fromFile)(file.terrain),
  }),
};
