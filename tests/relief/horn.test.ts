import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { emptyHeights } from '../../src/relief/levels/heights.ts';
import { hornGradients } from '../../src/relief/levels/horn.ts';
import { lightVector, shade } from '../../src/relief/tiles/relief-tile.ts';

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

  test('a plane is as steep at its rim and around voids as in its middle', () => {
    const holes = fc.uniqueArray(fc.nat(24), { maxLength: 8 });
    fc.assert(
      fc.property(holes, (missing) => {
        const plane = block(5, 5, (at) => 100 + 0.5 * (at % 5) - 0.25 * Math.floor(at / 5));
        for (const hole of missing) {
          plane.heights[hole] = 0;
          plane.known[hole] = 0;
        }
        const { across, down } = hornGradients(plane);
        for (let at = 0; at < 25; at += 1) {
          if (plane.known[at] === 0 || !neighboursSpread(plane, at)) continue;
          expect(across[at], `cell ${at}`).toBeCloseTo(0.5, 6);
          expect(down[at], `cell ${at}`).toBeCloseTo(-0.25, 6);
        }
      }),
    );
  });

  test('a strip one cell wide rises along itself', () => {
    const strip = block(4, 1, (at) => 10 + 3 * at);
    const { across, down } = hornGradients(strip);
    expect([...across, ...down]).toEqual([3, 3, 3, 3, 0, 0, 0, 0]);
  });

  test('a cell that stands alone is level', () => {
    const alone = block(3, 3, () => 50);
    alone.known.fill(0);
    alone.known[4] = 1;
    const { across, down } = hornGradients(alone);
    expect([across[4], down[4]]).toEqual([0, 0]);
  });
});

function block(columns: number, rows: number, height: (at: number) => number) {
  const made = emptyHeights({ column: 0, row: 0, columns, rows });
  made.heights.set(Array.from({ length: columns * rows }, (_, at) => height(at)));
  made.known.fill(1);
  return made;
}

/** Whether the known neighbours of a cell do not all lie on one line through it. */
function neighboursSpread({ known }: { readonly known: Uint8Array }, at: number): boolean {
  const [column, row] = [at % 5, Math.floor(at / 5)];
  const steps = [-1, 0, 1].flatMap((x) => [-1, 0, 1].map((y) => [x, y] as const));
  const there = steps.filter(([x, y]) => {
    const inside = column + x >= 0 && column + x < 5 && row + y >= 0 && row + y < 5;
    return inside && (x !== 0 || y !== 0) && known[at + x + 5 * y] === 1;
  });
  return there.some(([x, y]) => there.some(([u, v]) => x * v !== y * u));
}
