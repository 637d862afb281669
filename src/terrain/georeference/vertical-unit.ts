import { compoundCrs, type VerticalCrs, verticalCrs } from '../../geodesy/vertical-crs.ts';
import { refuse } from '../bytes/file-refusal.ts';
import type { GdalMetadata } from '../tiff/gdal-metadata.ts';
import { type GeoKeys, KEY } from './geo-keys.ts';

export type VerticalUnit = 'metre' | 'foot' | 'US survey foot' | 'British foot 1936';

/** Heights may also be whole centimetres or decimetres, which no registry code says. */
export type HeightUnit = VerticalUnit | 'centimetre' | 'decimetre';

/** Metres of one unit. Source: EPSG registry, units 9001, 9002, 9003, 9095, 1033. */
export const METRES_PER: Readonly<Record<HeightUnit, number>> = {
  metre: 1,
  foot: 0.3048,
  'US survey foot': 1200 / 3937,
  'British foot 1936': 0.3048007491,
  centimetre: 0.01,
  decimetre: 0.1,
};

const UNIT_CODES: Readonly<Record<number, HeightUnit>> = {
  9001: 'metre',
  9002: 'foot',
  9003: 'US survey foot',
  9095: 'British foot 1936',
  1033: 'centimetre',
};

export interface StatedUnit {
  readonly unit: HeightUnit;
  /** What says so, for the report; `assumed` where nothing does. */
  readonly evidence: 'UNITTYPE' | 'VerticalUnits' | 'VerticalCrs' | 'GeogLinearUnits' | 'assumed';
}

/**
 * The unit of the heights, from the strongest evidence there is: the band's unit text, the vertical unit key, the vertical
 * CRS, the linear unit of a three-dimensional geographic CRS. The unit of the grid says nothing about the heights.
 */
export async function statedVerticalUnit(keys: GeoKeys, metadata: GdalMetadata, band: number): Promise<StatedUnit> {
  const registered = await registeredVertical(keys);
  if (registered?.direction === 'down') {
    const found = `EPSG:${registered.code} ${registered.name}, which counts down`;
    refuse({ code: 'depths', where: 'VerticalCrs', found, expected: 'heights' });
  }
  const text = metadata.item('UNITTYPE', band);
  if (text !== undefined && text.trim() !== '') return { unit: unitFromText(text), evidence: 'UNITTYPE' };
  const code = keys.code(KEY.VerticalUnits);
  if (code !== undefined) return { unit: unitFromCode(code, 'VerticalUnits'), evidence: 'VerticalUnits' };
  if (registered !== null) return { unit: registered.unit, evidence: 'VerticalCrs' };
  const linear = keys.code(KEY.GeogLinearUnits);
  if (linear !== undefined && keys.code(KEY.ProjectedCrs) === undefined && keys.number(KEY.ModelType) !== 1) {
    return { unit: unitFromCode(linear, 'GeogLinearUnits'), evidence: 'GeogLinearUnits' };
  }
  return { unit: 'metre', evidence: 'assumed' };
}

function unitFromCode(code: number, where: string): HeightUnit {
  return (
    UNIT_CODES[code] ??
    refuse({ code: 'vertical-unit', where, found: `unit ${code}`, expected: 'metres, feet or centimetres' })
  );
}

const UNIT_TEXTS: readonly (readonly [RegExp, HeightUnit])[] = [
  [/^(m|met(re|er)s?|meter?)$/, 'metre'],
  [
    /^(ft_?us|us_?ft|us survey (foot|feet)|us_survey_foot|survey (foot|feet)|foot_us|us survey ft|us-ft)$/,
    'US survey foot',
  ],
  [/^(ft|foot|feet|international (foot|feet)|ift)$/, 'foot'],
  [/^(british foot \(?1936\)?|british_foot_1936|ftbr36)$/, 'British foot 1936'],
  [/^(cm|centimet(re|er)s?)$/, 'centimetre'],
  [/^(dm|decimet(re|er)s?)$/, 'decimetre'],
];

function unitFromText(text: string): HeightUnit {
  const plain = text.trim().toLowerCase();
  for (const [pattern, unit] of UNIT_TEXTS) if (pattern.test(plain)) return unit;
  return refuse({
    code: 'vertical-unit',
    where: 'UNITTYPE',
    found: text.trim(),
    expected: 'metres, feet or centimetres',
  });
}

/**
 * The vertical CRS of the registry that the file names, itself or as part of a compound one. Codes of GeoTIFF 1.0's own list
 * (5001 to 5106) are not in the registry and say nothing of units.
 */
export async function registeredVertical(keys: GeoKeys): Promise<VerticalCrs | null> {
  const vertical = keys.code(KEY.VerticalCrs) ?? (await compoundVertical(keys));
  return vertical === undefined ? null : verticalCrs(vertical);
}

async function compoundVertical(keys: GeoKeys): Promise<number | undefined> {
  const projected = keys.code(KEY.ProjectedCrs);
  return projected === undefined ? undefined : (await compoundCrs(projected))?.vertical;
}
