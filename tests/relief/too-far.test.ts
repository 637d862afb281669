import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { unseenWords } from '../../src/app/map/scale-bar.ts';
import { ReliefSource } from '../../src/relief/levels/relief-source.ts';
import { aboutPicture } from '../../src/relief/picture/about-picture.ts';
import { openPictureTiff } from '../../src/relief/picture/open-picture.ts';
import { type PictureBase, PicturePyramid } from '../../src/relief/picture/picture-pyramid.ts';
import { contourTile } from '../../src/relief/tiles/contour-tile.ts';
import { placedGrid } from '../../src/terrain/grid/placed-grid.ts';
import { memoryGrid } from './memory-grid.ts';
import { projection, UTM_32N } from './projections.ts';

/** 40 km of 1 m cells around 11° E, 47° N, UTM zone 32 N: 1.6 thousand million cells. */
const SIDE = 40_000;
const CHARACTER = { low: 0, high: 100, steep: 0.1 };

function drawn(cells: number, overviews: readonly ReturnType<typeof memoryGrid>[] = []) {
  const cell = SIDE / cells;
  const affine = { a: cell, b: 0, c: 632000, d: 0, e: -cell, f: 5227600 };
  const grid = memoryGrid({ columns: cells, rows: cells, affine, epsg: 32632, height: () => 5, overviews });
  return { grid, source: new ReliefSource([placedGrid(grid, projection(UTM_32N))]) };
}

/** The Web Mercator tile of a zoom over the middle of the grid. */
function tileAt(z: number) {
  const lat = (47 * Math.PI) / 180;
  const share = { x: 11 / 360 + 0.5, y: 0.5 - Math.asinh(Math.tan(lat)) / (2 * Math.PI) };
  return { z, x: Math.floor(share.x * 2 ** z), y: Math.floor(share.y * 2 ** z) };
}

const contoursOf = (source: ReliefSource, z: number) =>
  contourTile(source, CHARACTER, { tile: tileAt(z), unit: 'metre', finest: 0.1 });

test('a vast grid without overviews is left out from afar, is said to be, and is not read', async () => {
  const { grid, source } = drawn(SIDE);
  expect((await contoursOf(source, 6)).tooFar).toBe('all');
  expect(grid.reads).toEqual([]);
  expect((await contoursOf(source, 16)).tooFar).toBe('nothing');
});

test('between the two only its contours are left out', async () => {
  const { source } = drawn(SIDE);
  const zooms = Array.from({ length: 11 }, (_, step) => 6 + step);
  const told = zooms.map((z) => source.tooFar(z + 1, 1 / 256));
  const firstDrawn = zooms[told.indexOf(false)] ?? Number.NaN;
  expect((await contoursOf(source, firstDrawn)).tooFar).toBe('contours');
  expect((await contoursOf(source, firstDrawn - 1)).tooFar).toBe('all');
});

test('the same grid with a coarse copy, and a small one, are drawn from any distance', async () => {
  const copy = drawn(400).grid;
  expect((await contoursOf(drawn(SIDE, [copy]).source, 6)).tooFar).toBe('nothing');
  expect((await contoursOf(drawn(2000).source, 6)).tooFar).toBe('nothing');
});

async function fixture() {
  const bytes = new Uint8Array(readFileSync(new URL('fixtures/jpeg.tif', import.meta.url)));
  const source = {
    name: 'jpeg.tif',
    size: bytes.length,
    read: (slices: readonly { offset: number; length: number }[]) =>
      Promise.resolve(slices.map(({ offset, length }) => bytes.slice(offset, offset + length))),
  };
  const outcome = await openPictureTiff(source, () => Promise.reject(new Error('nothing may be read')));
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
}

function sized(raster: PictureBase, side: number): PictureBase {
  return Object.create(raster, { columns: { value: side }, rows: { value: side } });
}

test('a vast picture without overviews has a distance from which it is not drawn; others have none', async () => {
  const file = await fixture();
  const vast = new PicturePyramid(sized(file.pyramid.finest, SIDE), []);
  expect(vast.farthest).toBe(32);
  expect(vast.level(31.9)).not.toBeNull();
  expect(vast.level(32)).toBeNull();
  const about = aboutPicture({ ...file, pyramid: vast });
  expect(about?.farthest).toBeCloseTo(32 * Math.sqrt((about?.pixel.width ?? 0) * (about?.pixel.height ?? 0)), 9);

  const copied = new PicturePyramid(sized(file.pyramid.finest, SIDE), [sized(file.pyramid.finest, SIDE / 16)]);
  expect(copied.farthest).toBeNull();
  expect(file.pyramid.farthest).toBeNull();
});

test('the map says which of the two is out of sight, and nothing when neither is', () => {
  expect(unseenWords({ terrain: false, picture: false })).toBeNull();
  expect(unseenWords({ terrain: true, picture: false })).toMatch(/^Zoom in to see the elevation:/);
  expect(unseenWords({ terrain: false, picture: true })).toMatch(/^Zoom in to see the picture:/);
  expect(unseenWords({ terrain: true, picture: true })).toMatch(/^Zoom in to see the elevation and picture:/);
});
