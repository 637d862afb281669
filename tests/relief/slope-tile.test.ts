import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { projectionOf } from '../../src/geodesy/projection.ts';
import { ReliefSource } from '../../src/relief/levels/relief-source.ts';
import { SLOPE_EDGES, SLOPE_PALETTES, slopeClass } from '../../src/relief/tiles/slope-palette.ts';
import { slopeTile } from '../../src/relief/tiles/slope-tile.ts';
import { placedGrid } from '../../src/terrain/grid/placed-grid.ts';
import { openElevation } from '../../src/terrain/open/open-elevation.ts';
import { memoryGrid } from './memory-grid.ts';
import { projection, UTM_32N } from './projections.ts';

/**
 * `gdaldem slope data/demo/dem.tif slope.tif -p`, GDAL 3.6.2, read at the middles of cells around which the class does not
 * change: class from the edges 5, 15, 30 and 60 %, slope in %, longitude, latitude.
 */
const BY_GDAL = [
  [0, 1.2353, -39.999985, 37.997988],
  [0, 3.5292, -39.99382929, 38.00516912],
  [1, 10.3322, -40.00125949, 38.00125773],
  [1, 6.9067, -40.00045949, 38.00524809],
  [2, 19.9496, -39.99601212, 38.00402408],
  [2, 18.8499, -40.00158238, 37.99987606],
  [3, 46.8752, -40.00062284, 37.99799159],
  [3, 32.0907, -39.99926338, 37.99936404],
  [4, 71.9356, -39.99473994, 38.00175467],
  [4, 61.1932, -40.00072927, 38.00414626],
] as const;

const ZOOM = 20;
const SIDE = 256;

/** The tile over a place, and which pixel of it covers the place. */
function pixelAt(lon: number, lat: number) {
  const scale = 2 ** ZOOM;
  const x = (lon / 360 + 0.5) * scale;
  const y = (0.5 - Math.asinh(Math.tan((lat * Math.PI) / 180)) / (2 * Math.PI)) * scale;
  const tile = { z: ZOOM, x: Math.floor(x), y: Math.floor(y) };
  return { tile, at: Math.floor((y - tile.y) * SIDE) * SIDE + Math.floor((x - tile.x) * SIDE) };
}

const colourAt = (pixels: Uint8ClampedArray, at: number) => [...pixels.slice(4 * at, 4 * at + 4)];
const colourOf = (slope: number) => [...(SLOPE_PALETTES.light[slopeClass(slope)] ?? [0, 0, 0]), slope < 0.05 ? 0 : 204];

describe('slope colours of the demo valley', () => {
  let source: ReliefSource;
  beforeAll(async () => {
    const bytes = readFileSync(new URL('../../data/demo/dem.tif', import.meta.url));
    const opened = await openElevation({
      name: 'dem.tif',
      size: bytes.length,
      read: async (slices) => slices.map(({ offset, length }) => bytes.subarray(offset, offset + length)),
    });
    if (opened.kind !== 'opened') throw new Error(JSON.stringify(opened));
    const placed = await projectionOf(opened.value.crs);
    if (!placed.ok) throw new Error(JSON.stringify(placed));
    source = new ReliefSource([placedGrid(opened.value, placed.value)]);
  });

  test.each(BY_GDAL)('are of class %i where gdaldem has a slope of %f %%', async (wanted, percent, lon, lat) => {
    const { tile, at } = pixelAt(lon, lat);
    const samples = await source.sample(tile, { first: 0.5 / SIDE, step: 1 / SIDE, side: SIDE });
    const slope = Math.hypot(samples?.east[at] ?? 0, samples?.north[at] ?? 0);
    // The middle of the pixel lies within 0.1 m of the middle of the cell.
    expect(100 * slope).toBeCloseTo(percent, 0);
    expect(slopeClass(slope)).toBe(wanted);
    const pixels = await slopeTile(source, { tile, colours: 'light', size: SIDE });
    expect(colourAt(pixels, at)).toEqual(colourOf(percent / 100));
  });

  test('leave everything beside the elevation file clear', async () => {
    const pixels = await slopeTile(source, { tile: { z: 15, x: 12800, y: 12639 }, colours: 'dark', size: 64 });
    expect(pixels.every((value) => value === 0)).toBe(true);
  });
});

describe('slope colours of a plane', () => {
  /** A metre a cell around 47° N 11° E, in UTM zone 32; its scale there makes slopes 0.99988 of those in its grid. */
  const AFFINE = { a: 1, b: 0, c: 652000, d: 0, e: -1, f: 5207600 };
  const TILE = { z: 17, x: 69541, y: 46101 };
  const plane = (slope: number, turn: number) =>
    memoryGrid({
      columns: 800,
      rows: 800,
      affine: AFFINE,
      epsg: 32632,
      height: (column, row) => 900 + slope * (column * Math.cos(turn) + row * Math.sin(turn)),
    });
  const drawn = (slope: number, turn: number) =>
    slopeTile(new ReliefSource([placedGrid(plane(slope, turn), projection(UTM_32N))]), {
      tile: TILE,
      colours: 'light',
      size: 16,
    });

  test.each(SLOPE_EDGES.flatMap((edge) => [edge * 0.99, edge * 1.01].map((slope) => [slope])))(
    'that rises %f are of its class all over, whichever way it faces',
    async (slope) => {
      for (const turn of [0, 1, 2.5, 4]) {
        const pixels = await drawn(slope, turn);
        for (let at = 0; at < 256; at += 1) expect(colourAt(pixels, at)).toEqual(colourOf(slope));
      }
    },
  );

  test('reach to its rim and around a hole in it', async () => {
    const whole = plane(0.2, 0.6);
    const holed = memoryGrid({
      columns: 800,
      rows: 800,
      affine: AFFINE,
      epsg: 32632,
      height: (column, row) => (column % 40 < 20 ? 900 + 0.2 * (column * Math.cos(0.6) + row * Math.sin(0.6)) : null),
    });
    for (const grid of [whole, holed]) {
      const source = new ReliefSource([placedGrid(grid, projection(UTM_32N))]);
      const pixels = await slopeTile(source, { tile: { z: 15, x: 17385, y: 11525 }, colours: 'light', size: 128 });
      const colours = new Set(Array.from({ length: 128 * 128 }, (_, at) => colourAt(pixels, at).join(' ')));
      expect(colours).toEqual(new Set(['0 0 0 0', colourOf(0.2).join(' ')]));
    }
  });

  test('are not drawn where there is no height', async () => {
    const grid = memoryGrid({ columns: 800, rows: 800, affine: AFFINE, epsg: 32632, height: () => null });
    const source = new ReliefSource([placedGrid(grid, projection(UTM_32N))]);
    expect((await slopeTile(source, { tile: TILE, colours: 'light', size: 16 })).every((value) => value === 0)).toBe(
      true,
    );
  });
});

test('steeper ground is never of a gentler class, and an edge belongs to the steeper one', () => {
  const slope = fc.double({ min: 0, max: 20, noNaN: true });
  fc.assert(fc.property(slope, slope, (one, other) => (one <= other ? slopeClass(one) <= slopeClass(other) : true)));
  expect(SLOPE_EDGES.map(slopeClass)).toEqual([1, 2, 3, 4]);
});
