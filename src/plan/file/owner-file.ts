import * as z from 'zod/mini';
import type { MapTiles, MaterialList, MonthOfYear } from '../model/plan.ts';
import type { FileOf, PartCodec } from './fields.ts';
import { line, positive, share, TILE_ADDRESS, within } from './fields.ts';
import { asIs, orNull } from './scale.ts';

const monthSchema = z.strictObject({
  season: z.enum(['winter', 'summer']),
  air_temperature_C: z.nullable(within(-60, 60)),
  source_share: z.nullable(share),
});

export const monthCodec: PartCodec<MonthOfYear, FileOf<typeof monthSchema>> = {
  schema: monthSchema,
  toFile: (month) => ({
    season: month.season,
    air_temperature_C: orNull(asIs.toFile)(month.airTemperature),
    source_share: orNull(asIs.toFile)(month.sourceShare),
  }),
  fromFile: (file) => ({
    season: file.season,
    airTemperature: orNull(asIs.fromFile)(file.air_temperature_C),
    sourceShare: orNull(asIs.fromFile)(file.source_share),
  }),
};

const materialsSchema = z.strictObject({
  currency: line,
  allowance: within(0, 1),
  prices: z
    .array(
      z.strictObject({
        item: line,
        unit: z.enum(['metre', 'piece']),
        price: within(0, 1_000_000_000),
        pack_m: z.nullable(positive(100_000)),
      }),
    )
    .check(z.maxLength(1000)),
});

export const materialsCodec: PartCodec<MaterialList, FileOf<typeof materialsSchema>> = {
  schema: materialsSchema,
  toFile: (list) => ({
    currency: list.currency,
    allowance: asIs.toFile(list.allowance),
    prices: list.prices.map((p) => ({
      item: p.item,
      unit: p.unit,
      price: asIs.toFile(p.price),
      pack_m: orNull(asIs.toFile)(p.pack),
    })),
  }),
  fromFile: (file) => ({
    currency: file.currency,
    allowance: asIs.fromFile(file.allowance),
    prices: file.prices.map((p) => ({
      item: p.item,
      unit: p.unit,
      price: asIs.fromFile(p.price),
      pack: orNull(asIs.fromFile)(p.pack_m),
    })),
  }),
};

const tilesSchema = z.strictObject({
  address: z.string().check(z.maxLength(2000), z.regex(TILE_ADDRESS)),
  attribution: line,
});

export const tilesCodec: PartCodec<MapTiles, FileOf<typeof tilesSchema>> = {
  schema: tilesSchema,
  toFile: (tiles) => ({ ...tiles }),
  fromFile: (file) => file,
};
