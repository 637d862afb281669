import { describe, expect, it } from 'vitest';
import { groundAt } from '../../src/terrain/ground/ground-at.ts';
import { gridOf } from './grid-in-memory.ts';
import { placed, positionOf } from './placed.ts';

/** Heights on cells of 10 m, and the slopes `gdaldem slope` (GDAL 3.6.2, Horn) prints for the inner 3 × 3, degrees. */
const Z = [
  [100, 101, 103, 106, 110],
  [99, 102, 105, 107, 111],
  [98, 100, 104, 109, 113],
  [97, 101, 106, 112, 118],
  [95, 100, 107, 115, 122],
];
const HORN = [
  [14.851063, 16.916515, 20.38767],
  [18.756302, 23.34343, 26.707668],
  [24.227745, 30.720612, 33.854515],
];
const TEN_METRES = { a: 10, b: 0, c: 500000, d: 0, e: -10, f: 5200000 };
/** UTM on its central meridian shows a length of 1 m as 0.9996 m, so a slope on the ground is 0.9996 of that on the map. */
const UTM_SCALE = 0.9996;

describe('the slope under a point', () => {
  it('is that of gdaldem on the same cells, on the ellipsoid instead of the map', async () => {
    const grid = await placed(gridOf(5, 5, (c, r) => Z[r]?.[c] ?? null, { affine: TEN_METRES }));
    for (const [r, row] of HORN.entries()) {
      for (const [c, degrees] of row.entries()) {
        const [point] = await groundAt([grid], [positionOf(grid, c + 1.5, r + 1.5)]);
        const onMap = Math.tan((degrees * Math.PI) / 180);
        expect(point?.slope).toBeCloseTo(onMap * UTM_SCALE, 6);
        expect(point?.ground).toBeCloseTo(Z[r + 1]?.[c + 1] ?? 0, 6);
      }
    }
  });

  it('is the slope of a plane at its corner, beside a void and on a turned grid', async () => {
    const turned = { a: 0.8, b: 0.6, c: 500000, d: 0.6, e: -0.8, f: 5200000 };
    const height = (c: number, r: number): number | null => (c === 9 && r === 11 ? null : 0.3 * c + 0.4 * r);
    const grid = await placed(gridOf(20, 20, height, { affine: turned }));
    const points = [positionOf(grid, 0.2, 0.2), positionOf(grid, 8.4, 10.4), positionOf(grid, 12.5, 12.5)];
    for (const point of await groundAt([grid], points)) expect(point.slope).toBeCloseTo(0.5 * UTM_SCALE, 6);
  });

  it('is the slope on the ground on cells of degrees, which are narrower than high', async () => {
    const step = 1 / 10800;
    const lat = 60;
    const affine = { a: step, b: 0, c: 10, d: 0, e: -step, f: lat + 10 * step };
    const grid = await placed(gridOf(20, 20, (c) => 100 + c, { affine, crs: { kind: 'epsg', code: 4326 } }));
    const [point] = await groundAt([grid], [positionOf(grid, 10.5, 10.5)]);
    // Length of a degree of the parallel of 60° on WGS 84: 55 800 m (Snyder, Map projections: a working manual, 1987, eq. 4-21).
    expect((1 / (point?.slope ?? 1)) * 10800).toBeCloseTo(55800, -1);
  });

  it('is nought where the ground is unknown', async () => {
    const grid = await placed(gridOf(20, 20, () => null));
    const found = await groundAt([grid], [positionOf(grid, 10, 10), positionOf(grid, 90, 10)]);
    expect(found).toEqual([
      { ground: null, slope: 0, smoothing: 0 },
      { ground: null, slope: 0, smoothing: 0 },
    ]);
  });
});

describe('what cell averaging does to a height', () => {
  /** Mean of p x² + q y² over the cell of side s: p (x² + s²/12) + q (y² + s²/12). Closed form. */
  const side = 10;
  const bowl = { p: 0.004, q: 0.001 };
  const mean = (c: number, r: number): number => {
    const x = (c - 9.5) * side;
    const y = (r - 9.5) * side;
    return bowl.p * (x * x + side ** 2 / 12) + bowl.q * (y * y + side ** 2 / 12);
  };
  const truth = (column: number, row: number): number => {
    const x = (column - 10) * side;
    const y = (row - 10) * side;
    return bowl.p * x * x + bowl.q * y * y;
  };

  it.each([
    [10, 10],
    [10.5, 10.5],
    [10.25, 10.75],
    [12, 7.5],
  ])('lifts a valley floor at (%f, %f) by just what it says, when block means were taken', async (column, row) => {
    const grid = await placed(gridOf(20, 20, mean, { affine: TEN_METRES }));
    const [point] = await groundAt([grid], [positionOf(grid, column, row)]);
    expect(point?.smoothing).toBeGreaterThan(0);
    expect((point?.ground ?? 0) - (point?.smoothing ?? 0)).toBeCloseTo(truth(column, row), 6);
  });

  it('lowers a ridge and leaves a plane alone', async () => {
    const ridge = await placed(gridOf(20, 20, (c, r) => -mean(c, r), { affine: TEN_METRES }));
    const plane = await placed(gridOf(20, 20, (c, r) => 3 * c - 2 * r, { affine: TEN_METRES }));
    const [onRidge] = await groundAt([ridge], [positionOf(ridge, 10, 10)]);
    const [onPlane] = await groundAt([plane], [positionOf(plane, 10.3, 10.1)]);
    expect(onRidge?.smoothing).toBeLessThan(0);
    expect(onPlane?.smoothing).toBeCloseTo(0, 12);
  });

  it('at a corner between cells is four times what it is in a cell’s middle', async () => {
    // Block mean c²/24 ∇²z in the middle; plus c²/8 ∇²z for bilinear at a corner: derived, closed form.
    const grid = await placed(gridOf(20, 20, mean, { affine: TEN_METRES }));
    const [middle, corner] = await groundAt([grid], [positionOf(grid, 10.5, 10.5), positionOf(grid, 10, 10)]);
    expect((corner?.smoothing ?? 0) / (middle?.smoothing ?? 1)).toBeCloseTo(4, 3);
  });
});

describe('reading under several points', () => {
  it('takes one window for points that lie near together', async () => {
    const grid = gridOf(500, 500, () => 1);
    const on = await placed(grid);
    await groundAt([on], [positionOf(on, 20, 20), positionOf(on, 300, 350), positionOf(on, 30, 300)]);
    expect(grid.reads).toHaveLength(1);
  });
});
