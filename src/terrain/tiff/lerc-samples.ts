import { unpackDeflate } from '../codec/inflate.ts';
import { unpackLerc } from '../codec/lerc.ts';
import { failLerc, type LercType } from '../codec/lerc-cursor.ts';
import type { BlockShape } from '../codec/predictor.ts';
import type { Samples } from '../codec/samples.ts';
import { unpackZstd } from '../codec/zstd.ts';
import type { RasterLayout } from './raster-layout.ts';

/** Further packing around a LERC blob. Source: GDAL's GeoTIFF driver page, LERC parameters. */
const FURTHER = { none: 0, deflate: 1, zstd: 2 } as const;
const HEADER_ROOM = 4096;

/**
 * One band of a LERC block as numbers. Where the blob's own mask leaves a cell out it comes back as NaN, in 64-bit floating
 * point whatever the samples are, so that it cannot be taken for a height.
 */
export function lercSamples(packed: Uint8Array, layout: RasterLayout, shape: BlockShape, band: number): Samples {
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
