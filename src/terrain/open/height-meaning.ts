import { refuse } from '../bytes/file-refusal.ts';
import type { GeoKeys } from '../georeference/geo-keys.ts';
import type { OpenAnswers } from '../georeference/open-answers.ts';
import { statedVerticalDatum } from '../georeference/vertical-datum.ts';
import { METRES_PER, type StatedUnit, statedVerticalUnit } from '../georeference/vertical-unit.ts';
import type { GdalMetadata } from '../tiff/gdal-metadata.ts';
import type { HeightRule } from '../tiff/heights-from-samples.ts';
import { parseNoData } from '../tiff/no-data.ts';
import type { RasterLayout } from '../tiff/raster-layout.ts';
import type { TagValues } from '../tiff/tag-values.ts';
import { TAG } from '../tiff/tiff-tags.ts';

/** How the stored numbers of one band become metres, and what says so. */
export interface HeightMeaning {
  readonly rule: HeightRule;
  readonly stated: StatedUnit;
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
  const metres = METRES_PER[answers.verticalUnit ?? stated.unit];
  const noDataText = (await tags.text(TAG.GdalNoData)) ?? null;
  const value = noDataValue(noDataText, layout, answers);
  return {
    rule: { noData: value, factor: scale * metres, add: offset * metres },
    stated,
    datum: await statedVerticalDatum(keys),
    scale,
    offset,
    noDataText,
    noDataUnreachable: value !== null && !canHold(value, layout),
  };
}

function noDataValue(text: string | null, layout: RasterLayout, answers: OpenAnswers): number | null {
  if (answers.noData === 'none') return null;
  if (answers.noData !== undefined) return parseNoData(String(answers.noData), layout) ?? null;
  const value = parseNoData(text ?? undefined, layout);
  if (value !== undefined) return value;
  return refuse({ code: 'no-data', where: 'GdalNoData', found: text ?? '', expected: 'a number' });
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
