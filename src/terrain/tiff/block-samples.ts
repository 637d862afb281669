import { LERC, unpackBlock } from '../codec/block-codec.ts';
import { MACHINE_IS_LITTLE_ENDIAN, swapBytes } from '../codec/byte-order.ts';
import { type BlockShape, undoDifferences, undoFloatPredictor } from '../codec/predictor.ts';
import type { Samples } from '../codec/samples.ts';
import { lercSamples } from './lerc-samples.ts';
import type { RasterLayout } from './raster-layout.ts';

const DIFFERENCES = 2;
const FLOAT_PREDICTOR = 3;

/** One band of a packed block as numbers, `columns × rows` of them. */
export function decodeSamples(
  packed: Uint8Array,
  form: { layout: RasterLayout; littleEndian: boolean; rows: number; mostRows: number; band: number },
): Samples {
  const { layout } = form;
  const shape: BlockShape = {
    columns: layout.blockColumns,
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
