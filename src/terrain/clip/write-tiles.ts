import { zlibSync } from 'fflate';
import type { WrittenGeoKeys } from '../georeference/geo-keys.ts';
import type { Affine } from '../grid/grid.ts';
import { TAG } from '../tiff/tiff-tags.ts';

/** Numbers of the cells of one tile, row by row. */
export type TileValues = Float32Array | Float64Array | Int32Array;

/** A raster of which some tiles are there and the others are left out. */
export interface TileRaster {
  readonly columns: number;
  readonly rows: number;
  /** Cells along the side of a tile: a multiple of 16. */
  readonly tile: number;
  readonly affine: Affine;
  readonly keys: WrittenGeoKeys;
  readonly noData: number;
  readonly form: keyof typeof FORMS;
  /** By the number of the tile, counted row by row. */
  readonly tiles: ReadonlyMap<number, TileValues>;
}

/** Bits, sample format and predictor. Source: TIFF 6.0, sections 14 and 19; TIFF Technical Note 3 (floating point). */
const FORMS = {
  int32: { bits: 32, format: 2, predictor: 2 },
  float32: { bits: 32, format: 3, predictor: 3 },
  float64: { bits: 64, format: 3, predictor: 3 },
} as const;

const DEFLATE = 8;
const BLACK_IS_ZERO = 1;
/** Types of the values of a tag and their bytes. Source: TIFF 6.0, section 2. */
const TYPE = { ascii: 2, short: 3, long: 4, double: 12 } as const;
const BYTES = { 2: 1, 3: 2, 4: 4, 12: 8 } as const;

interface Entry {
  readonly tag: number;
  readonly type: (typeof TYPE)[keyof typeof TYPE];
  readonly values: readonly number[];
}

/**
 * A GeoTIFF of tiles, packed with DEFLATE. A tile that is left out has no place and no bytes, which readers take for cells
 * without a value. Source: GDAL's GeoTIFF driver page, "Sparse files".
 */
export function writeTiles(raster: TileRaster): Uint8Array<ArrayBuffer> {
  const { columns, rows, tile, tiles } = raster;
  const count = Math.ceil(columns / tile) * Math.ceil(rows / tile);
  const packed = [...tiles].map(([index, values]) => ({ index, bytes: packTile(values, raster) }));
  const offsets = new Array<number>(count).fill(0);
  const counts = new Array<number>(count).fill(0);
  const entries = entriesOf(raster, offsets, counts);
  let at = HEAD_BYTES + directoryBytes(entries);
  for (const { index, bytes } of packed) {
    offsets[index] = at;
    counts[index] = bytes.length;
    at += bytes.length + (bytes.length % 2);
  }
  const out = new Uint8Array(at);
  writeDirectory(out, entries);
  for (const { index, bytes } of packed) out.set(bytes, offsets[index] ?? 0);
  return out;
}

const HEAD_BYTES = 8;
const ENTRY_BYTES = 12;

/** Bytes of the directory with the values that do not fit into it. */
function directoryBytes(entries: readonly Entry[]): number {
  const outside = entries.map(bytesOf).filter((bytes) => bytes > 4);
  return 2 + ENTRY_BYTES * entries.length + 4 + outside.reduce((sum, bytes) => sum + bytes + (bytes % 2), 0);
}

const bytesOf = ({ type, values }: Entry): number => BYTES[type] * values.length;

/** Little-endian; the lists of `entries` are read now, so tiles must have their places by now. */
function writeDirectory(out: Uint8Array<ArrayBuffer>, entries: readonly Entry[]): void {
  const view = new DataView(out.buffer);
  view.setUint16(0, 0x4949, true);
  view.setUint16(2, 42, true);
  view.setUint32(4, HEAD_BYTES, true);
  view.setUint16(HEAD_BYTES, entries.length, true);
  let outside = HEAD_BYTES + 2 + ENTRY_BYTES * entries.length + 4;
  for (const [k, entry] of entries.entries()) {
    const at = HEAD_BYTES + 2 + ENTRY_BYTES * k;
    const bytes = bytesOf(entry);
    view.setUint16(at, entry.tag, true);
    view.setUint16(at + 2, entry.type, true);
    view.setUint32(at + 4, entry.values.length, true);
    if (bytes <= 4) writeValues(view, at + 8, entry);
    else {
      view.setUint32(at + 8, outside, true);
      writeValues(view, outside, entry);
      outside += bytes + (bytes % 2);
    }
  }
}

function writeValues(view: DataView, at: number, { type, values }: Entry): void {
  for (const [k, value] of values.entries()) {
    const place = at + k * BYTES[type];
    if (type === TYPE.ascii) view.setUint8(place, value);
    else if (type === TYPE.short) view.setUint16(place, value, true);
    else if (type === TYPE.long) view.setUint32(place, value, true);
    else view.setFloat64(place, value, true);
  }
}

/** In the order of their numbers, as a directory has to be. */
function entriesOf(raster: TileRaster, offsets: readonly number[], counts: readonly number[]): Entry[] {
  const { columns, rows, tile, keys, noData, form } = raster;
  const { bits, format, predictor } = FORMS[form];
  const entries: Entry[] = [
    long(TAG.ImageWidth, columns),
    long(TAG.ImageLength, rows),
    short(TAG.BitsPerSample, bits),
    short(TAG.Compression, DEFLATE),
    short(TAG.PhotometricInterpretation, BLACK_IS_ZERO),
    short(TAG.SamplesPerPixel, 1),
    short(TAG.Predictor, predictor),
    long(TAG.TileWidth, tile),
    long(TAG.TileLength, tile),
    { tag: TAG.TileOffsets, type: TYPE.long, values: offsets },
    { tag: TAG.TileByteCounts, type: TYPE.long, values: counts },
    short(TAG.SampleFormat, format),
    ...placeOf(raster.affine),
    { tag: TAG.GeoKeyDirectory, type: TYPE.short, values: keys.directory },
    { tag: TAG.GeoDoubleParams, type: TYPE.double, values: keys.doubles },
    { tag: TAG.GeoAsciiParams, type: TYPE.ascii, values: keys.ascii === '' ? [] : letters(keys.ascii) },
    { tag: TAG.GdalNoData, type: TYPE.ascii, values: letters(String(noData)) },
  ];
  return entries.filter(({ values }) => values.length > 0).sort((one, other) => one.tag - other.tag);
}

const long = (tag: number, value: number): Entry => ({ tag, type: TYPE.long, values: [value] });
const short = (tag: number, value: number): Entry => ({ tag, type: TYPE.short, values: [value] });
const letters = (text: string): number[] => [...new TextEncoder().encode(text), 0];

function placeOf({ a, b, c, d, e, f }: Affine): Entry[] {
  const doubles = (tag: number, values: readonly number[]): Entry => ({ tag, type: TYPE.double, values });
  if (b === 0 && d === 0 && a > 0 && e < 0) {
    return [doubles(TAG.ModelPixelScale, [a, -e, 0]), doubles(TAG.ModelTiepoint, [0, 0, 0, c, f, 0])];
  }
  return [doubles(TAG.ModelTransformation, [a, b, 0, c, d, e, 0, f, 0, 0, 0, 0, 0, 0, 0, 1])];
}

function packTile(values: TileValues, { tile, form }: TileRaster): Uint8Array {
  const { predictor } = FORMS[form];
  return zlibSync(predictor === 2 ? differences(values, tile) : ranks(values, tile), { level: 7 });
}

/** Each whole number less the one before it in its row. */
function differences(values: TileValues, tile: number): Uint8Array {
  const out = new Int32Array(values.length);
  for (let k = 0; k < values.length; k += 1) {
    out[k] = k % tile === 0 ? (values[k] as number) : (values[k] as number) - (values[k - 1] as number);
  }
  return new Uint8Array(out.buffer);
}

/** The bytes of each row by their rank, the most significant first, each less the one before it. */
function ranks(values: TileValues, tile: number): Uint8Array {
  const width = values.BYTES_PER_ELEMENT;
  const bytes = new Uint8Array(values.buffer, values.byteOffset, values.byteLength);
  const out = new Uint8Array(bytes.length);
  const row = tile * width;
  for (let start = 0; start < out.length; start += row) {
    for (let rank = 0; rank < width; rank += 1) {
      for (let k = 0; k < tile; k += 1) {
        out[start + rank * tile + k] = bytes[start + k * width + (width - 1 - rank)] as number;
      }
    }
    for (let k = start + row - 1; k > start; k -= 1) out[k] = (out[k] as number) - (out[k - 1] as number);
  }
  return out;
}
