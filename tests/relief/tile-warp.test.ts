import fc from 'fast-check';
import proj4 from 'proj4';
import { describe, expect, test } from 'vitest';
import { placeInTile, tileGround } from '../../src/relief/levels/mercator.ts';
import { WARP_ERROR, warpedCell, warpTile } from '../../src/relief/levels/tile-warp.ts';
import type { Affine } from '../../src/terrain/grid/grid.ts';
import { placedGrid } from '../../src/terrain/grid/placed-grid.ts';
import { memoryGrid } from './memory-grid.ts';
import { LON_LAT, projection, UTM_32N } from './projections.ts';

const AFFINE = { a: 1, b: 0, c: 652000, d: 0, e: -1, f: 5207600 };
/** A grid turned by 30°, 2 m cells. */
const TURNED = { a: 1.7320508, b: 1, c: 652000, d: 1, e: -1.7320508, f: 5207600 };

function placed(affine: Affine, definition: string) {
  const grid = memoryGrid({ columns: 800, rows: 800, affine, epsg: 32632, height: () => 0 });
  return placedGrid(grid, projection(definition)).cellAt;
}

function tileAt(lon: number, lat: number, z: number) {
  const y = 0.5 - Math.asinh(Math.tan((lat * Math.PI) / 180)) / (2 * Math.PI);
  return { z, x: Math.floor((lon / 360 + 0.5) * 2 ** z), y: Math.floor(y * 2 ** z) };
}

describe('where a map tile lies in the cells of a grid', () => {
  test('the corner of the tile pyramid is where the Web Mercator square begins', () => {
    // OGC Two Dimensional Tile Matrix Set 2.0, annex D.1: 85.0511287798066° N, 180° W.
    const corner = placeInTile({ z: 0, x: 0, y: 0 }, 0, 0);
    expect(corner.lon).toBe(-180);
    expect(corner.lat).toBeCloseTo(85.0511287798066, 12);
  });

  test('a tile at 47° N is as long on the ground as the ellipsoid says', () => {
    // GeodSolve -i -p 9: "47 11 47 11.01" 760.559982490; "46.995 11 47.005 11" 1111.708415032.
    const tilesPerDegree = 2 ** 15 / 360;
    const ground = tileGround(15, 47);
    expect((ground.east * tilesPerDegree * 0.01) / 760.55998249).toBeCloseTo(1, 8);
    const stretch = 1 / Math.cos((47 * Math.PI) / 180);
    expect((ground.north * tilesPerDegree * stretch * 0.01) / 1111.708415032).toBeCloseTo(1, 8);
  });

  test.each([
    ['north-up', AFFINE],
    ['turned', TURNED],
  ])('stays within a tenth of a cell of the exact projection on a %s grid', (_name, affine) => {
    const { a, b, c, d, e, f } = affine;
    fc.assert(
      fc.property(
        fc.integer({ min: 11, max: 19 }),
        fc.double({ min: 10.9, max: 11.1, noNaN: true }),
        fc.double({ min: 46.9, max: 47.1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (z, lon, lat, u, v) => {
          const tile = tileAt(lon, lat, z);
          const warp = warpTile(tile, placed(affine, UTM_32N));
          expect(warp).not.toBeNull();
          if (!warp) return;
          const { lon: east, lat: north } = placeInTile(tile, u, v);
          const { x, y } = proj4(UTM_32N).forward({ x: east, y: north });
          const is = warpedCell(warp, u, v);
          // How far the warped cell lies from the projected place, in units of the plane, 1 m or 2 m to a cell.
          const off = Math.hypot(a * is.column + b * is.row + c - x, d * is.column + e * is.row + f - y);
          expect(off / Math.sqrt(Math.abs(a * e - b * d))).toBeLessThan(WARP_ERROR);
        },
      ),
    );
  });

  test('a place of known easting and northing lands in its cell', () => {
    // cs2cs EPSG:4326 EPSG:32632, 47 N 11 E: 652049.0369 5207105.3271
    const tile = tileAt(11, 47, 16);
    const warp = warpTile(tile, placed(AFFINE, UTM_32N));
    expect(warp).not.toBeNull();
    if (!warp) return;
    const u = (11 / 360 + 0.5) * 2 ** 16 - tile.x;
    const v = (0.5 - Math.asinh(Math.tan((47 * Math.PI) / 180)) / (2 * Math.PI)) * 2 ** 16 - tile.y;
    const cell = warpedCell(warp, u, v);
    expect(Math.hypot(cell.column - 49.0369, cell.row - 494.6729)).toBeLessThan(WARP_ERROR);
  });

  test('a tile beyond what the projection can say is refused, not bent', () => {
    expect(warpTile({ z: 10, x: 500, y: 300 }, () => null)).toBeNull();
  });

  test('a grid in degrees needs no turn', () => {
    const warp = warpTile(tileAt(11, 47, 14), placed({ a: 1e-4, b: 0, c: 10, d: 0, e: -1e-4, f: 48 }, LON_LAT));
    expect(warp && warpedCell(warp, 0.5, 0.2).column).toBeCloseTo(warp ? warpedCell(warp, 0.5, 0.9).column : 0, 6);
  });
});
