import { writeArrayBuffer } from 'geotiff';
import { KEY, USER_DEFINED, type WrittenGeoKeys } from '../georeference/geo-keys.ts';
import type { VerticalUnit } from '../georeference/vertical-unit.ts';
import type { Affine } from '../grid/grid.ts';
import { TAG } from '../tiff/tiff-tags.ts';

/** Heights as they are to stand in a file: row by row from the top, in its unit, its nodata where there is none. */
export interface HeightsToWrite {
  readonly columns: number;
  readonly rows: number;
  readonly values: Float32Array | Float64Array;
  readonly affine: Affine;
  readonly keys: WrittenGeoKeys;
  readonly noData: number;
}

/** The writer lays tags of so many bytes before the heights and drops what goes beyond. */
const MOST_TAG_BYTES = 1000;
/** Head, directory of 22 entries at most, and what it holds besides the place and the text of nodata. */
const OTHER_TAG_BYTES = 8 + 2 + 22 * 12 + 4 + 32;
/** Bits, format and kind of each of several samples stand beside the directory. */
const BYTES_PER_BAND = 6;
/** The writer states columns and rows in two bytes. */
export const MOST_ACROSS = 65_535;

/**
 * Heights as a GeoTIFF, uncompressed, coordinates at the corners of cells; null where the file states its coordinates in more
 * words than the writer has room for.
 */
export function writeHeights({ values, ...frame }: HeightsToWrite): ArrayBuffer | null {
  return written(values, frame);
}

/** Several numbers a cell, band after band, on one frame; null as for `writeHeights`. */
export function writeBands(
  bands: readonly ((cell: number) => number)[],
  frame: Omit<HeightsToWrite, 'values'>,
): ArrayBuffer | null {
  const cells = frame.columns * frame.rows;
  const values = new Float32Array(cells * bands.length);
  for (const [k, band] of bands.entries()) {
    for (let cell = 0, at = k; cell < cells; cell++, at += bands.length) values[at] = band(cell);
  }
  return written(values, frame, bands.length);
}

function written(
  values: Float32Array | Float64Array,
  { columns, rows, affine, keys, noData }: Omit<HeightsToWrite, 'values'>,
  bands = 1,
): ArrayBuffer | null {
  const text = String(noData);
  const placeBytes = 16 * 8;
  const keyBytes = 2 * keys.directory.length + 8 * keys.doubles.length + keys.ascii.length + 1;
  const bandBytes = bands > 1 ? bands * BYTES_PER_BAND : 0;
  if (OTHER_TAG_BYTES + placeBytes + keyBytes + bandBytes + text.length + 1 > MOST_TAG_BYTES) return null;
  if (columns > MOST_ACROSS || rows > MOST_ACROSS)
    throw new Error(`heights to write: found ${columns} × ${rows} cells, expected ${MOST_ACROSS} at most each way`);
  return writeArrayBuffer(values, {
    width: columns,
    height: rows,
    ...placeOf(affine),
    GeoKeyDirectory: [...keys.directory],
    ...(keys.doubles.length > 0 && { GeoDoubleParams: [...keys.doubles] }),
    ...(keys.ascii !== '' && { GeoAsciiParams: keys.ascii }),
    GDAL_NODATA: text,
    // Three bands would be taken for colours, and those beyond the first are said to be no such.
    ...(bands > 1 && { PhotometricInterpretation: 1, ExtraSamples: Array.from({ length: bands - 1 }, () => 0) }),
    // Without a code here the writer puts the file over the whole globe; the code in the directory above is what it writes.
    ProjectedCSTypeGeoKey: USER_DEFINED,
  });
}

function placeOf({ a, b, c, d, e, f }: Affine) {
  if (b === 0 && d === 0 && a > 0 && e < 0) return { ModelPixelScale: [a, -e, 0], ModelTiepoint: [0, 0, 0, c, f, 0] };
  return { ModelTransformation: [a, b, 0, c, d, e, 0, f, 0, 0, 0, 0, 0, 0, 0, 1] };
}

const AREA = 1;
const MODEL = { projected: 1, geographic: 2 } as const;
/** Source: EPSG registry, units 9001, 9002, 9003, 9095. */
const UNIT_CODE: Readonly<Record<VerticalUnit, number>> = {
  metre: 9001,
  foot: 9002,
  'US survey foot': 9003,
  'British foot 1936': 9095,
};

/** Keys of a CRS that is known by its code. */
export function keysOfCode(code: number, { geographic }: { readonly geographic: boolean }): WrittenGeoKeys {
  const model = geographic ? MODEL.geographic : MODEL.projected;
  const crs = geographic ? KEY.GeodeticCrs : KEY.ProjectedCrs;
  const entries = [KEY.ModelType, 0, 1, model, KEY.RasterType, 0, 1, AREA, crs, 0, 1, code];
  return { directory: [1, 1, 0, entries.length / 4, ...entries], doubles: [], ascii: '' };
}

/** Keys that say besides that coordinates are those of corners, and in which unit the heights are, if that is known. */
export function keysForHeights(keys: WrittenGeoKeys, unit: VerticalUnit | null): WrittenGeoKeys {
  const entries = entriesOf(keys).filter(
    ([key]) => key !== KEY.RasterType && (unit === null || key !== KEY.VerticalUnits),
  );
  entries.push([KEY.RasterType, 0, 1, AREA]);
  if (unit !== null) entries.push([KEY.VerticalUnits, 0, 1, UNIT_CODE[unit]]);
  return withEntries(keys, entries);
}

/** Keys without what they say of heights: for cells that hold something else. */
export function keysWithoutHeights(keys: WrittenGeoKeys): WrittenGeoKeys {
  const entries = entriesOf(keys).filter(([key]) => key < KEY.VerticalCrs && key !== KEY.RasterType);
  return withEntries(keys, [...entries, [KEY.RasterType, 0, 1, AREA]]);
}

/** Only what the keys say of the zero of the heights, beside the code of a CRS. */
export function keysWithCode(
  keys: WrittenGeoKeys,
  code: number,
  crs: { readonly geographic: boolean },
): WrittenGeoKeys {
  const vertical = entriesOf(keys).filter(([key]) => key >= KEY.VerticalCrs && key <= KEY.VerticalUnits);
  return withEntries(keys, [...entriesOf(keysOfCode(code, crs)), ...vertical]);
}

/** A key, the tag that holds its value (0 where it is here), how many, and the value or its place. */
type Entry = readonly [key: number, tag: number, count: number, value: number];

function entriesOf({ directory }: WrittenGeoKeys): Entry[] {
  const [, , , count = 0] = directory;
  return Array.from({ length: count }, (_, k) => {
    const [key, tag, values, value] = directory.slice(4 + 4 * k, 8 + 4 * k);
    if (key === undefined || tag === undefined || values === undefined || value === undefined)
      throw new Error(`geo keys: found ${directory.length} numbers, expected ${4 + 4 * count}`);
    return [key, tag, values, value];
  });
}

/** Keys stand in the order of their numbers. Source: OGC GeoTIFF 1.1 (19-008r4), section 7.1.1. Values in the directory itself move. */
function withEntries(keys: WrittenGeoKeys, entries: readonly Entry[]): WrittenGeoKeys {
  const sorted = entries.filter(([, tag]) => tag !== TAG.GeoKeyDirectory).toSorted(([one], [other]) => one - other);
  return { ...keys, directory: [1, 1, keys.directory[2] ?? 0, sorted.length, ...sorted.flat()] };
}
