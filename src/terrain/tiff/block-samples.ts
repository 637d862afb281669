import { LERC, unpackBlock } from '../codec/block-codec.ts';
import { unpackDeflate } from '../codec/inflate.ts';
import { unpackLerc } from '../codec/lerc.ts';
import { failLerc, type LercType } from '../codec/lerc-cursor.ts';
import { type BlockShape, undoDifferences, undoFloatPredictor } from '../codec/predictor.ts';
import type { Samples } from '../codec/samples.ts';
import { unpackZstd } from '../codec/zstd.ts';
import type { RasterLayout } from './raster-layout.ts';

/** Whether this machine keeps the low byte first. */
const MACHINE_IS_LITTLE_ENDIAN = new Uint8Array(new Uint16Array([1]).buffer)[0] === 1;

/** Turns the bytes of each value round, in place. */
function swapBytes(bytes: Uint8Array, width: number): void {
  if (width === 2) {
    swapPairs(bytes);
    return;
  }
  for (let i = 0; i + width <= bytes.length; i += width) {
    for (let low = i, high = i + width - 1; low < high; low++, high--) {
      const kept = bytes[low] as number;
      bytes[low] = bytes[high] as number;
      bytes[high] = kept;
    }
  }
}

function swapPairs(bytes: Uint8Array): void {
  for (let i = 0; i + 1 < bytes.length; i += 2) {
    const kept = bytes[i] as number;
    bytes[i] = bytes[i + 1] as number;
    bytes[i + 1] = kept;
  }
}

/** Further packing around a LERC blob. Source: GDAL's GeoTIFF driver page, LERC parameters. */
const FURTHER = { none: 0, deflate: 1, zstd: 2 } as const;
const HEADER_ROOM = 4096;

/**
 * One band of a LERC block as numbers. Where the blob's own mask leaves a cell out it comes back as NaN, in 64-bit floating
 * point whatever the samples are, so that it cannot be taken for a height.
 */
function lercSamples(packed: Uint8Array, layout: RasterLayout, shape: BlockShape, band: number): Samples {
  const blob = unwrap(packed, layout.lercWrapping, shape);
  const { columns, rows, samples } = shape;
  const { values, valid } = unpackLerc(blob, { columns, rows, samples, type: lercType(layout) });
  const masked = valid.includes(0);
  const out =
    masked || layout.bits > 32 || layout.kind !== 'float'
      ? new Float64Array(valid.length)
      : new Float32Array(valid.length);
  for (let cell = 0, from = band; cell < out.length; cell++, from += samples) {
    const value = values[from] as number;
    out[cell] =
      valid[cell] === 0 ? Number.NaN : layout.bits === 32 && layout.kind === 'float' ? Math.fround(value) : value;
  }
  return out;
}

function unwrap(packed: Uint8Array, wrapping: number, shape: BlockShape): Uint8Array {
  // A blob is never much larger than the values as they are, with a mask and a byte a square.
  const most = Math.ceil(shape.columns * shape.rows * (shape.samples * (shape.bits / 8) * 1.25 + 1)) + HEADER_ROOM;
  if (wrapping === FURTHER.none) return packed;
  if (wrapping === FURTHER.deflate) return unpackDeflate(packed, most);
  if (wrapping === FURTHER.zstd) return unpackZstd(packed, most);
  return failLerc(`further packing ${wrapping}`, 'none, DEFLATE or ZSTD');
}

function lercType({ kind, bits }: RasterLayout): LercType {
  if (kind === 'float') return bits === 64 ? 'float64' : 'float32';
  if (bits === 8) return kind === 'int' ? 'int8' : 'uint8';
  if (bits === 16) return kind === 'int' ? 'int16' : 'uint16';
  return kind === 'int' ? 'int32' : 'uint32';
}

const DIFFERENCES = 2;
const FLOAT_PREDICTOR = 3;

/** One band of a packed block as numbers, `columns × rows` of them. */
export function decodeSamples(
  packed: Uint8Array,
  form: { layout: RasterLayout; littleEndian: boolean; columns: number; rows: number; mostRows: number; band: number },
): Samples {
  const { layout } = form;
  const shape: BlockShape = {
    columns: form.columns,
    rows: form.rows,
    samples: layout.separate ? 1 : layout.samples,
    bits: layout.bits,
  };
  if (layout.compression === LERC) return lercSamples(packed, layout, shape, form.band);
  const rowBytes = Math.ceil((shape.columns * shape.samples * shape.bits) / 8);
  const needed = rowBytes * shape.rows;
  const most = Math.max(needed, rowBytes * form.mostRows);
  const bytes = unpackBlock(layout.compression, packed, { needed, most });
  if (shape.bits === 1) return spreadBits(bytes, shape.columns, rowBytes);
  const ordered = restore(bytes, shape, layout.predictor, form.littleEndian);
  const values = asNumbers(ordered, layout);
  return shape.samples === 1 ? values : pickBand(values, shape, form.band);
}

function restore(bytes: Uint8Array, shape: BlockShape, predictor: number, littleEndian: boolean): Uint8Array {
  const width = shape.bits / 8;
  if (predictor === FLOAT_PREDICTOR) {
    const values = undoFloatPredictor(bytes, shape);
    if (!MACHINE_IS_LITTLE_ENDIAN) swapBytes(values, width);
    return values;
  }
  if (width > 1 && littleEndian !== MACHINE_IS_LITTLE_ENDIAN) swapBytes(bytes, width);
  if (predictor === DIFFERENCES) undoDifferences(bytes, shape);
  return bytes;
}

function asNumbers(bytes: Uint8Array, layout: RasterLayout): Samples {
  const { buffer, byteOffset } = bytes;
  const count = bytes.length / (layout.bits / 8);
  if (layout.kind === 'float')
    return layout.bits === 64
      ? new Float64Array(buffer, byteOffset, count)
      : new Float32Array(buffer, byteOffset, count);
  if (layout.kind === 'int') {
    if (layout.bits === 8) return new Int8Array(buffer, byteOffset, count);
    return layout.bits === 16 ? new Int16Array(buffer, byteOffset, count) : new Int32Array(buffer, byteOffset, count);
  }
  if (layout.bits === 8) return bytes;
  return layout.bits === 16 ? new Uint16Array(buffer, byteOffset, count) : new Uint32Array(buffer, byteOffset, count);
}

function pickBand(values: Samples, shape: BlockShape, band: number): Samples {
  const cells = shape.columns * shape.rows;
  const picked = values.slice(0, cells);
  for (let i = 0, from = band; i < cells; i++, from += shape.samples) picked[i] = values[from] as number;
  return picked;
}

/** Masks hold one bit a cell, most significant first, each row filled up to whole bytes. */
function spreadBits(bytes: Uint8Array, columns: number, rowBytes: number): Uint8Array {
  const rows = bytes.length / rowBytes;
  const cells = new Uint8Array(columns * rows);
  for (let row = 0, i = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++, i++) {
      cells[i] = ((bytes[row * rowBytes + (column >> 3)] as number) >> (7 - (column & 7))) & 1;
    }
  }
  return cells;
}
