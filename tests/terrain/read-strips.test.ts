import { expect, test } from 'vitest';
import { openGeoTiff } from '../../src/terrain/open/open-geotiff.ts';
import { sourceOf } from './fixture-files.ts';
import { demEntries, type MadeEntry, makeTiff } from './tiff-maker.ts';

// TIFF 6.0 (Adobe, 1992), section 3: rows of an uncompressed strip lie one after the other.

const COLUMNS = 20_003;
const ROWS = 60;
const height = (column: number, row: number): number => 300 + (column % 97) / 8 + row;
const short = (tag: number, value: number): MadeEntry => ({ tag, type: 3, values: [value] });

function strips(rowsPerStrip: number): Uint8Array {
  const blocks = Array.from({ length: ROWS / rowsPerStrip }, (_, strip) => {
    const values = Float32Array.from({ length: COLUMNS * rowsPerStrip }, (_, i) =>
      height(i % COLUMNS, strip * rowsPerStrip + Math.floor(i / COLUMNS)),
    );
    return new Uint8Array(values.buffer);
  });
  return makeTiff(demEntries([short(256, COLUMNS), short(257, ROWS), short(259, 1), short(278, rowsPerStrip)]), blocks);
}

test.each([1, 4])(
  'a window of uncompressed strips of %i long rows read whole rows: now the columns it needs, and the same heights',
  async (rowsPerStrip) => {
    const source = sourceOf('made.tif', strips(rowsPerStrip));
    const outcome = await openGeoTiff(source, { verticalUnit: 'metre' });
    if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
    for (const column of [0, 1020, 15_000, COLUMNS - 40]) {
      const before = source.bytesRead;
      const window = { column, row: 7, columns: 40, rows: 30 };
      const { heights, known } = await outcome.value.read(window);
      expect(source.bytesRead - before).toBeLessThanOrEqual(30 * 2 * 1024 * 4);
      for (let i = 0; i < heights.length; i++) {
        expect(known[i]).toBe(1);
        expect(heights[i]).toBe(height(column + (i % 40), 7 + Math.floor(i / 40)));
      }
    }
  },
);
