import { refuse } from '../bytes/file-refusal.ts';
import { compressionName, isReadable, LERC } from '../codec/block-codec.ts';
import type { RasterLayout } from './raster-layout.ts';

/** Sample sizes the reader turns into heights, by kind of number. */
const BITS: Readonly<Record<RasterLayout['kind'], readonly number[]>> = {
  uint: [8, 16, 32],
  int: [8, 16, 32],
  float: [32, 64],
};

const MOST_BLOCK_BYTES = 64 * 1024 * 1024;
/** A cell of a block may take 8 bytes of height, 1 of mask and its samples while it is unpacked. */
const MOST_BLOCK_CELLS = 16 * 1024 * 1024;
const PREDICTORS = [1, 2, 3];
const FLOAT_PREDICTOR = 3;
const UNCOMPRESSED = 1;

/** Refuses by name what the reader cannot turn into heights, before any cell is read. */
export function checkSupport(layout: RasterLayout, littleEndian: boolean): void {
  const { bits, kind, compression, predictor } = layout;
  if (!BITS[kind].includes(bits)) {
    refuse({
      code: 'sample-size',
      where: 'BitsPerSample',
      found: `${bits}-bit ${kindName(kind)}`,
      expected: '8, 16 or 32-bit whole numbers or 32 or 64-bit floating point',
    });
  }
  if (!isReadable(compression)) {
    refuse({
      code: 'compression',
      where: 'Compression',
      found: compressionName(compression),
      expected: 'none, LZW, DEFLATE, PackBits, ZSTD or LERC',
    });
  }
  if (!PREDICTORS.includes(predictor) || (predictor === FLOAT_PREDICTOR && kind !== 'float')) {
    refuse({ code: 'predictor', where: 'Predictor', found: predictor, expected: '1, 2, or 3 on floating point' });
  }
  if (compression === LERC && !littleEndian) {
    // Writers disagree on whether the numbers inside the blob are turned round; either reading may be wrong.
    refuse({
      code: 'compression',
      where: 'Compression',
      found: 'LERC in a big-endian file',
      expected: 'LERC in a little-endian file',
    });
  }
  checkBlockSize(layout);
}

function checkBlockSize(layout: RasterLayout): void {
  const { blockColumns, blockRows, samples, separate, bits, compression, tiled } = layout;
  if (compression === UNCOMPRESSED && !tiled) return;
  const values = blockColumns * blockRows * (separate ? 1 : samples);
  const bytes = values * (bits / 8);
  // A LERC block is unpacked with all its bands at once, each value in 64 bits.
  const cells = compression === LERC ? values : blockColumns * blockRows;
  if (bytes > MOST_BLOCK_BYTES || cells > MOST_BLOCK_CELLS) {
    refuse({
      code: 'block-size',
      where: tiled ? 'TileWidth' : 'RowsPerStrip',
      found: `blocks of ${blockColumns} × ${blockRows} cells, ${bytes} bytes`,
      expected: `at most ${MOST_BLOCK_CELLS} cells and ${MOST_BLOCK_BYTES} bytes; rewrite the file in tiles`,
    });
  }
}

function kindName(kind: RasterLayout['kind']): string {
  if (kind === 'float') return 'floating point';
  return kind === 'int' ? 'signed whole number' : 'unsigned whole number';
}
