import { refuse } from '../bytes/file-refusal.ts';
import { type GeoKeys, KEY } from '../georeference/geo-keys.ts';
import type { OpenAnswers } from '../georeference/open-answers.ts';
import {
  type HeightUnit,
  METRES_PER,
  registeredVertical,
  type StatedUnit,
  statedVerticalUnit,
} from '../georeference/vertical-unit.ts';
import type { GdalMetadata } from '../tiff/gdal-metadata.ts';
import type { HeightRule } from '../tiff/heights-from-samples.ts';
import { parseNoData } from '../tiff/no-data.ts';
import type { RasterLayout } from '../tiff/raster-layout.ts';
import type { TagValues } from '../tiff/tag-values.ts';
import { TAG } from '../tiff/tiff-tags.ts';

/** Codes from before the registry had any; names as the registry writes them. Source: GeoTIFF 1.0, 1995, section 6.3.4.1. */
const FIRST_CODES: Readonly<Record<number, string>> = {
  5101: 'ODN height',
  5102: 'NGVD29 height',
  5103: 'NAVD88 height',
  5104: 'Yellow Sea 1956 height',
  5105: 'Baltic Sea height',
  5106: 'Caspian Sea height',
};

/** The registry names heights above one zero once for each unit: "NAVD88 height", "NAVD88 height (ftUS)". */
const UNIT_AT_END = /\s*\((m|ft|ftUS|ft\(Br36\))\)\s*$/;

/**
 * Above what the heights of a file count, without their unit: by the file's vertical code, by the vertical part of its
 * compound code, or in its own words; null where it says nothing.
 */
async function statedVerticalDatum(keys: GeoKeys): Promise<string | null> {
  const registered = await registeredVertical(keys);
  const code = keys.code(KEY.VerticalCrs);
  const named = registered?.name ?? (code === undefined ? undefined : FIRST_CODES[code]);
  const stated = named ?? keys.text(KEY.VerticalCitation)?.trim();
  if (stated !== undefined && stated !== '') return stated.replace(UNIT_AT_END, '');
  return code === undefined ? null : `EPSG:${code}`;
}

/** How the stored numbers of one band become metres, and what says so. */
export interface HeightMeaning {
  readonly rule: HeightRule;
  readonly stated: StatedUnit;
  /** The unit that is taken, stated or answered. */
  readonly unit: HeightUnit;
  /** Above what the heights count; null where the file does not say. */
  readonly datum: string | null;
  readonly scale: number;
  readonly offset: number;
  readonly noDataText: string | null;
  /** A nodata that no cell of this kind can hold, such as −9999 among unsigned numbers. */
  readonly noDataUnreachable: boolean;
}

/** Height in metres = (raw · scale + offset) · metres of the unit; nodata is compared with the raw number. */
export async function readHeightMeaning(
  tags: TagValues,
  form: { layout: RasterLayout; keys: GeoKeys; metadata: GdalMetadata; band: number; answers: OpenAnswers },
): Promise<HeightMeaning> {
  const { layout, keys, metadata, band, answers } = form;
  const scale = finite(metadata.number('SCALE', band) ?? 1, 'SCALE');
  const offset = finite(metadata.number('OFFSET', band) ?? 0, 'OFFSET');
  if (scale === 0) refuse({ code: 'scale', where: 'SCALE', found: 0, expected: 'a number other than 0' });
  const stated = await statedVerticalUnit(keys, metadata, band);
  const unit = unitToUse(stated, answers);
  const metres = METRES_PER[unit];
  const noDataText = (await tags.text(TAG.GdalNoData)) ?? null;
  const [value, ...alsoVoid] = noDataValues(noDataText, layout, answers);
  return {
    rule: { noData: value ?? null, alsoVoid, factor: scale * metres, add: offset * metres },
    stated,
    unit,
    datum: await statedVerticalDatum(keys),
    scale,
    offset,
    noDataText,
    noDataUnreachable: value !== undefined && !canHold(value, layout),
  };
}

/** The unit that a file states, else the one that the user named; the user's first where that is to stand instead. */
export function unitToUse(stated: StatedUnit, { verticalUnit, instead }: OpenAnswers): HeightUnit {
  if (verticalUnit === undefined) return stated.unit;
  return stated.evidence === 'assumed' || instead?.includes('verticalUnit') ? verticalUnit : stated.unit;
}

/** Every number that means "no height": the stated one first, then those that the user named; theirs alone where they stand instead. */
export function noDataValues(
  text: string | null,
  form: Pick<RasterLayout, 'kind' | 'bits'>,
  { noData, instead }: OpenAnswers,
): number[] {
  const named = noData === undefined || noData === 'none' ? [] : [noData].flat();
  const own = named.flatMap((value) => parseNoData(String(value), form) ?? []);
  if (instead?.includes('noData')) return own;
  const value = parseNoData(text ?? undefined, form);
  if (value === undefined) {
    if (noData !== undefined) return own;
    refuse({ code: 'no-data', where: 'GdalNoData', found: text ?? '', expected: 'a number' });
  }
  return [...new Set([...(value === null ? [] : [value]), ...own])];
}

function canHold(value: number, { kind, bits }: RasterLayout): boolean {
  if (kind === 'float') return true;
  const least = kind === 'int' ? -(2 ** (bits - 1)) : 0;
  const most = kind === 'int' ? 2 ** (bits - 1) - 1 : 2 ** bits - 1;
  return Number.isInteger(value) && value >= least && value <= most;
}

function finite(value: number, where: string): number {
  return Number.isFinite(value) ? value : refuse({ code: 'scale', where, found: value, expected: 'a finite number' });
}
