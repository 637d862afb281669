import { describe, expect, test } from 'vitest';
import { emptyHeights } from '../../src/relief/heights.ts';
import { hornGradients } from '../../src/relief/horn.ts';
import { lightVector, shade } from '../../src/relief/shade.ts';

/** Recorded with gdaldem 3.6.2 on this 5 × 5 grid of 10 m cells: `gdaldem slope` and `gdaldem hillshade -az 315 -alt 45`. */
const Z = [
  [100, 101, 103, 106, 110],
  [99, 102, 105, 107, 111],
  [98, 100, 104, 109, 113],
  [97, 101, 106, 112, 118],
  [95, 100, 107, 115, 122],
];
const CELL = 10;
const SLOPE_DEGREES = [14.851063, 16.916515, 20.38767, 18.756302, 23.34343, 26.707668, 24.227745, 30.720612, 33.854515];
const SHADE_BYTES = [202, 215, 226, 207, 224, 238, 217, 235, 245];
const SHADE_BYTES_TWICE = [210, 230, 242, 213, 233, 248, 219, 235, 245];
const INNER = [6, 7, 8, 11, 12, 13, 16, 17, 18];

function slopes(stretch: number) {
  const block = { ...emptyHeights({ column: 0, row: 0, columns: 5, rows: 5 }) };
  block.heights.set(Z.flat());
  block.known.fill(1);
  const { across, down } = hornGradients(block);
  return INNER.map((at) => ({
    east: (stretch * (across[at] ?? 0)) / CELL,
    north: (-stretch * (down[at] ?? 0)) / CELL,
  }));
}

describe('slope and shade of the ground', () => {
  test('slopes equal those of gdaldem', () => {
    slopes(1).forEach(({ east, north }, at) => {
      expect((Math.atan(Math.hypot(east, north)) * 180) / Math.PI).toBeCloseTo(SLOPE_DEGREES[at] ?? 0, 4);
    });
  });

  test.each([
    [1, SHADE_BYTES],
    [2, SHADE_BYTES_TWICE],
  ])('hillshade with heights × %d equals that of gdaldem', (stretch, bytes) => {
    const light = lightVector({ azimuth: 315, altitude: 45 });
    expect(slopes(stretch).map(({ east, north }) => Math.round(1 + 254 * shade(east, north, light)))).toEqual(bytes);
  });

  test('a cell beside a void takes its own height for the missing one', () => {
    const block = emptyHeights({ column: 0, row: 0, columns: 3, rows: 3 });
    block.heights.fill(50);
    block.known.fill(1);
    block.heights[5] = 0;
    block.known[5] = 0;
    expect(hornGradients(block).across[4]).toBe(0);
  });
});
