import { describe, expect, test } from 'vitest';
import { KNOWN, OUTSIDE, VOID } from '../../src/relief/levels/ground-samples.ts';
import { ReliefSource } from '../../src/relief/levels/relief-source.ts';
import { terrainCharacter } from '../../src/relief/levels/terrain-character.ts';
import { RELIEF_PALETTES } from '../../src/relief/tiles/relief-palette.ts';
import { exaggeration, paintRelief, reliefTile } from '../../src/relief/tiles/relief-tile.ts';
import { placedGrid } from '../../src/terrain/grid/placed-grid.ts';
import { memoryGrid } from './memory-grid.ts';
import { projection, UTM_32N } from './projections.ts';

/** A metre a cell around 47° N 11° E, in UTM zone 32. */
const AFFINE = { a: 1, b: 0, c: 652000, d: 0, e: -1, f: 5207600 };
const TILE = { z: 17, x: 69541, y: 46101 };
const SPEC = { first: 1 / 64, step: 1 / 32, side: 32 };
/** Grid north of UTM stands γ = atan(tan Δλ sin φ) east of north: Δλ = 2°, φ = 47°. Snyder 1987, eq. 8-14 (sphere). */
const CONVERGENCE = Math.atan(Math.tan((2 * Math.PI) / 180) * Math.sin((47 * Math.PI) / 180));

function source(height: (column: number, row: number) => number | null, size = 800) {
  const grid = memoryGrid({ columns: size, rows: size, affine: AFFINE, epsg: 32632, height });
  return { grid, source: new ReliefSource([placedGrid(grid, projection(UTM_32N))]) };
}

describe('the ground in a map tile', () => {
  test('of a plane has its slope, turned from grid north to true north', async () => {
    const slope = 0.25;
    const samples = await source((column) => 300 + slope * column).source.sample(TILE, SPEC);
    expect(samples?.missing).toBe(0);
    const middle = 16 * 32 + 16;
    // Scale of UTM 2° off its meridian: 0.9996 (1 + (Δλ cos φ)² / 2) = 0.99988.
    expect(samples?.east[middle]).toBeCloseTo(slope * Math.cos(CONVERGENCE) * 0.99988, 4);
    expect(samples?.north[middle]).toBeCloseTo(slope * Math.sin(CONVERGENCE) * -0.99988, 4);
  });

  test('is bilinear between the middles of cells, as GDAL warps it', async () => {
    // gdal.Warp of the demo DEM is checked in the browser; here a plane, which bilinear keeps exactly.
    const plane = (column: number, row: number) => 100 + 0.3 * (column + 0.5) - 0.2 * (row + 0.5);
    const samples = await source(plane).source.sample(TILE, SPEC);
    const place = projection(UTM_32N);
    for (const at of [0, 31, 512, 1023]) {
      const u = SPEC.first + (at % 32) * SPEC.step;
      const v = SPEC.first + Math.floor(at / 32) * SPEC.step;
      const lon = ((TILE.x + u) / 2 ** TILE.z) * 360 - 180;
      const lat = (Math.atan(Math.sinh(Math.PI * (1 - (2 * (TILE.y + v)) / 2 ** TILE.z))) * 180) / Math.PI;
      const { x, y } = place.forward({ lon, lat }) ?? { x: 0, y: 0 };
      const exact = 100 + 0.3 * (x - AFFINE.c) - 0.2 * (AFFINE.f - y);
      // A tenth of a cell at the most, on a slope of 0.36.
      expect(Math.abs((samples?.heights[at] ?? 0) - exact)).toBeLessThan(0.036);
    }
  });

  test('knows a void from what lies outside', async () => {
    const half = await source((column) => (column < 400 ? 300 : null)).source.sample(
      { z: 15, x: 17385, y: 11525 },
      SPEC,
    );
    const states = new Set(half?.state ?? []);
    expect(states).toEqual(new Set([OUTSIDE, VOID, KNOWN]));
  });

  test('comes from the finest grid that has a height there', async () => {
    const coarse = memoryGrid({
      columns: 80,
      rows: 80,
      affine: { ...AFFINE, a: 10, e: -10 },
      epsg: 32632,
      height: () => 500,
    });
    const fine = memoryGrid({
      columns: 800,
      rows: 800,
      affine: AFFINE,
      epsg: 32632,
      height: (column) => (column < 100 ? null : 300),
    });
    const both = new ReliefSource([coarse, fine].map((grid) => placedGrid(grid, projection(UTM_32N))));
    const samples = await both.sample({ z: 14, x: 8692, y: 5762 }, { first: 1 / 256, step: 1 / 128, side: 128 });
    expect(new Set(samples?.heights.filter((_, at) => samples.state[at] === KNOWN))).toEqual(new Set([300, 500]));
  });

  test('reads each block of the file once while it fits the memory', async () => {
    const { grid, source: relief } = source(() => 300);
    const first = await relief.sample(TILE, SPEC);
    const reads = grid.reads.length;
    await relief.sample(TILE, SPEC);
    await relief.sample({ ...TILE, x: TILE.x + 1 }, SPEC);
    expect(first).not.toBeNull();
    const keys = grid.reads.map((window) => `${window.column}/${window.row}`);
    expect(new Set(keys).size).toBe(keys.length);
    expect(grid.reads.length).toBeGreaterThanOrEqual(reads);
  });

  test('seen from far is the mean of the cells, so a plane keeps its heights', async () => {
    const { source: relief } = source((column) => 300 + 0.1 * (column + 0.5));
    const near = await relief.sample(TILE, { first: 0.5, step: 1 / 1024, side: 1 });
    const far = await relief.sample(TILE, { first: 0.5, step: 1 / 16, side: 1 });
    expect(far?.heights[0]).toBeCloseTo(near?.heights[0] ?? 0, 2);
  });

  test('stops when nobody waits for it any more', async () => {
    const stop = new AbortController();
    stop.abort(new Error('moved on'));
    await expect(source(() => 300).source.sample(TILE, SPEC, stop.signal)).rejects.toThrow('moved on');
  });
});

describe('the shaded relief', () => {
  test('is lighter on the slope that faces north-west than on the one behind', async () => {
    const ridge = source((column) => 300 - 0.3 * Math.abs(column - 400)).source;
    const character = await terrainCharacter(ridge);
    const shade = async (x: number) => {
      const pixels = await reliefTile(ridge, character, { tile: { z: 17, x, y: TILE.y }, colours: 'light', size: 16 });
      return (pixels[4 * 136] ?? 0) + (pixels[4 * 136 + 1] ?? 0) + (pixels[4 * 136 + 2] ?? 0);
    };
    expect(await shade(TILE.x)).toBeGreaterThan((await shade(TILE.x + 3)) + 40);
  });

  test('leaves ground without heights clear, and flat ground clear over a picture', async () => {
    const flat = source((column) => (column < 400 ? 300 : null)).source;
    const samples = await flat.sample({ z: 15, x: 17385, y: 11525 }, SPEC);
    if (!samples) throw new Error('samples: found none');
    const character = { low: 0, high: 600, steep: 0.1 };
    const alone = paintRelief(samples, RELIEF_PALETTES.light, character);
    const over = paintRelief(samples, RELIEF_PALETTES['light-over-picture'], character);
    samples.state.forEach((state, at) => {
      expect(alone[4 * at + 3]).toBe(state === KNOWN ? 255 : 0);
    });
    const middle = samples.state.findIndex((state, at) => state === KNOWN && samples.state[at + 1] === KNOWN);
    expect(over[4 * middle + 3]).toBe(0);
  });

  test('never flattens ground for the light and stretches gentle ground at most four times', () => {
    expect(exaggeration({ low: 0, high: 1, steep: 2 })).toBe(1);
    expect(exaggeration({ low: 0, high: 1, steep: 0.001 })).toBe(4);
  });
});
