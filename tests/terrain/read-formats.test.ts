import { zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import type { OpenAnswers } from '../../src/terrain/georeference/open-answers.ts';
import { openTerrain } from '../../src/terrain/ground/open-terrain.ts';
import { openElevation } from '../../src/terrain/open/open-elevation.ts';
import { sourceOf } from './fixture-files.ts';
import { COLUMNS, demEntries, HEIGHTS, makeDem, makeTiff, packed, ROWS, without } from './tiff-maker.ts';

const text = (words: string): Uint8Array => new TextEncoder().encode(words);

async function opened(name: string, bytes: Uint8Array, answers: OpenAnswers = {}) {
  const outcome = await openElevation(sourceOf(name, bytes), answers);
  if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
  return outcome.value;
}
const whole = { column: 0, row: 0, columns: COLUMNS, rows: ROWS };
const WKT =
  'PROJCS["WGS_1984_UTM_Zone_30N",GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137.0,298.257223563]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]],PROJECTION["Transverse_Mercator"],PARAMETER["False_Easting",500000.0],PARAMETER["False_Northing",0.0],PARAMETER["Central_Meridian",-3.0],PARAMETER["Scale_Factor",0.9996],PARAMETER["Latitude_Of_Origin",0.0],UNIT["Meter",1.0]]';

// SRTM Topography documentation, NASA, from memory: 1201 × 1201 big-endian 16-bit metres from the north-west, edges included.
describe('.hgt', () => {
  const side = 1201;
  const bytes = new Uint8Array(2 * side * side);
  const view = new DataView(bytes.buffer);
  const height = (column: number, row: number): number => 200 + (column % 50) + (row % 30);
  for (let i = 0; i < side * side; i++) view.setInt16(2 * i, height(i % side, Math.floor(i / side)));
  view.setInt16(0, -32768);

  test('was no format: its name says where it lies, its size how fine it is', async () => {
    const grid = await opened('N38W123.hgt', bytes);
    const block = await grid.read({ column: 0, row: 0, columns: 3, rows: 2 });
    expect([...block.known]).toEqual([0, 1, 1, 1, 1, 1]);
    expect([...block.heights].slice(1)).toEqual([201, 202, 201, 202, 203]);
    // The first sample is the north-west corner, 39° N 123° W, in the middle of its cell.
    const { a, c, e, f } = grid.affine;
    expect([c + a / 2, f + e / 2]).toEqual([-123, 39]);
    expect([c + a * (side - 0.5), f + e * (side - 0.5)].map((x) => Number(x.toFixed(9)))).toEqual([-122, 38]);
    const last = await grid.read({ column: side - 1, row: side - 1, columns: 1, rows: 1 });
    expect(last.heights[0]).toBe(height(side - 1, side - 1));
  });

  test('of the southern and eastern half', async () => {
    const { affine } = await opened('S03E036.SRTMGL3.hgt', bytes);
    expect([affine.c + affine.a / 2, affine.f + affine.e / 2]).toEqual([36, -2]);
  });

  test.each([
    ['without its place in its name', 'heights.hgt', bytes, 'hgt-name'],
    ['cut off', 'N38W123.hgt', bytes.subarray(0, 1000), 'hgt-size'],
  ])('%s is refused', async (_, name, content, code) => {
    expect(await openElevation(sourceOf(name, content))).toMatchObject({ kind: 'refused', problems: [{ code }] });
  });
});

describe('.xyz', () => {
  const points = (rows: readonly (readonly [number, number, number])[], between = ' '): Uint8Array =>
    text(`${rows.map((row) => row.join(between)).join('\n')}\n`);
  const six: [number, number, number][] = [
    [500010, 4200050, 11],
    [500030, 4200050, 12],
    [500050, 4200050, 13],
    [500010, 4200030, 14],
    [500030, 4200030, 15],
  ];

  test.each([
    ['blanks', points(six)],
    ['commas and titles', text(`x,y,z\n${six.map((row) => row.join(',')).join('\n')}\n`)],
    ['semicolons', points(six, ';')],
    ['any order', points([...six].reverse())],
  ])('points on a regular grid, with %s, are its cells; one that is missing is a hole', async (_, bytes) => {
    const grid = await opened('points.xyz', bytes, { crs: 32630 });
    expect([grid.columns, grid.rows]).toEqual([3, 2]);
    expect(grid.affine).toEqual({ a: 20, b: 0, c: 500000, d: 0, e: -20, f: 4200060 });
    const block = await grid.read({ column: 0, row: 0, columns: 3, rows: 2 });
    expect([...block.heights]).toEqual([11, 12, 13, 14, 15, 0]);
    expect([...block.known]).toEqual([1, 1, 1, 1, 1, 0]);
  });

  test('scattered points are refused', async () => {
    const scattered = points([...six, [500037, 4200041, 16]]);
    expect(await openElevation(sourceOf('points.xyz', scattered), { crs: 32630 })).toMatchObject({
      kind: 'refused',
      problems: [{ code: 'xyz' }],
    });
  });

  test('its CRS is asked for', async () => {
    expect(await openElevation(sourceOf('points.xyz', points(six)))).toMatchObject({ question: { about: 'crs' } });
  });
});

// ZIP File Format Specification (APPNOTE), PKWARE; archives are written by fflate.
describe('a zip archive', () => {
  const dem = makeDem();

  test('gives the one elevation file in it, with what lies beside it there', async () => {
    const grid = await opened('tile.zip', zipSync({ 'data/readme.txt': text('made'), 'data/dem.tif': dem }));
    expect((await grid.read(whole)).heights[0]).toBe(HEIGHTS[0]);
    const asc = text('ncols 2\nnrows 2\nxllcorner 500000\nyllcorner 4200000\ncellsize 30\n11 12 13 14\n');
    const other = await opened('tile.zip', zipSync({ 'a.asc': asc, 'a.prj': text(WKT) }));
    expect((await other.read({ column: 0, row: 0, columns: 2, rows: 2 })).heights[3]).toBe(14);
  });

  test('of several asks which one is meant', async () => {
    const two = zipSync({
      'west.tif': dem,
      'east.tif': makeDem(
        [],
        HEIGHTS.map((height) => height + 7),
      ),
    });
    expect(await openElevation(sourceOf('tile.zip', two))).toMatchObject({
      question: { about: 'entry', file: 'tile.zip', entries: ['west.tif', 'east.tif'] },
    });
    const grid = await opened('tile.zip', two, { entry: 'east.tif' });
    expect((await grid.read(whole)).heights[0]).toBe(Math.fround((HEIGHTS[0] ?? 0) + 7));
  });

  test('passes on what the file inside leaves open, as a question about the archive', async () => {
    const outcome = await openElevation(sourceOf('tile.zip', zipSync({ 'dem.tif': dem })), { askUnit: true });
    expect(outcome).toMatchObject({ question: { about: 'verticalUnit', file: 'tile.zip' } });
  });

  test.each([
    ['without heights', zipSync({ 'readme.txt': text('made') }), 'archive'],
    ['cut off', zipSync({ 'dem.tif': dem }).slice(0, 200), 'archive'],
    [
      'with a broken stream',
      broken(zipSync({ 'dem.tif': new Uint8Array(5000).map((_, i) => (i * i) % 251) })),
      'archive',
    ],
    ['that claims an entry of four gigabytes', claiming(zipSync({ 'dem.tif': dem })), 'archive-size'],
  ])('%s is refused in one line', async (_, bytes, code) => {
    const outcome = await openElevation(sourceOf('tile.zip', bytes));
    expect(outcome).toMatchObject({ kind: 'refused', problems: [{ code, path: expect.stringMatching(/^tile\.zip/) }] });
  });

  function broken(bytes: Uint8Array): Uint8Array {
    return bytes.fill(0xff, 60, 400);
  }

  /** The uncompressed size in the central directory: APPNOTE, section 4.3.12, 24 bytes in. */
  function claiming(bytes: Uint8Array): Uint8Array {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    for (let i = 0; i + 4 < bytes.length; i++) {
      if (view.getUint32(i, true) === 0x02014b50) view.setUint32(i + 24, 0xfffffff0, true);
    }
    return bytes;
  }
});

describe('a format that is not read', () => {
  test.each([
    ['JPEG 2000', Uint8Array.of(0, 0, 0, 12, 0x6a, 0x50, 0x20, 0x20, 0x0d, 0x0a), /JPEG 2000/, /GeoTIFF: export it/],
    ['HDF5', Uint8Array.of(0x89, 0x48, 0x44, 0x46, 0x0d, 0x0a), /HDF5/, /GeoTIFF/],
    ['an Erdas Imagine file', text('EHFA_HEADER_TAG....'), /Erdas Imagine/, /GeoTIFF/],
    ['lidar points', text('LASF....'), /lidar points/, /ground model/],
    ['a web page in its stead', text('<!DOCTYPE html><html>'), /web page/, /the file itself/],
    ['gzip', Uint8Array.of(0x1f, 0x8b, 8, 0), /gzip/, /unpack it first/],
  ])('%s is named in plain words, with the way out', async (_, bytes, found, expected) => {
    const outcome = await openElevation(sourceOf('dem.bin', bytes));
    expect(outcome).toMatchObject({
      kind: 'refused',
      problems: [
        {
          code: 'other-format',
          path: 'dem.bin',
          found: expect.stringMatching(found),
          expected: expect.stringMatching(expected),
        },
      ],
    });
  });
});

describe('what lies beside an elevation file', () => {
  const open = (files: Readonly<Record<string, Uint8Array>>, answers: OpenAnswers = {}) =>
    openTerrain(
      Object.entries(files).map(([name, bytes]) => sourceOf(name, bytes)),
      { answers: { 'dem.tif': answers, 'dem.asc': answers }, accuracy: null },
    );
  const unplaced = makeTiff(
    without(33550).filter(({ tag }) => tag !== 33922 && tag !== 34735),
    [packed(HEIGHTS)],
  );
  // 2 m cells, the middle of the first at 500001, 4199999: GDAL, "ESRI World File".
  const world = text('2\n0\n0\n-2\n500001\n4199999\n');

  test('a world file and a projection file place a TIFF that says nothing of its place', async () => {
    expect(await open({ 'dem.tif': unplaced })).toMatchObject({
      kind: 'refused',
      problems: [{ code: 'no-georeferencing', expected: expect.stringContaining('world file') }],
    });
    const outcome = await open({ 'dem.tif': unplaced, 'dem.tfw': world, 'dem.prj': text(WKT) });
    if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
    expect(outcome.grids[0]?.affine).toEqual({ a: 2, b: 0, c: 500000, d: 0, e: -2, f: 4200000 });
    expect(outcome.terrain.about.files).toEqual(['dem.tif']);
  });

  // GDAL, "Raster masks": a file with the ending .msk holds one band of 8 bits, 0 where there is nothing.
  test('a mask makes holes', async () => {
    const cells = Uint8Array.from({ length: COLUMNS * ROWS }, (_, i) => (i === 5 ? 0 : 255));
    const mask = makeTiff(
      demEntries([
        { tag: 258, type: 3, values: [8] },
        { tag: 339, type: 3, values: [1] },
      ]),
      [packed(cells)],
    );
    const outcome = await open({ 'dem.tif': makeDem(), 'dem.tif.msk': mask });
    if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
    const block = await outcome.grids[0]?.read(whole);
    expect([block?.known[4], block?.known[5], block?.known[6]]).toEqual([1, 0, 1]);
  });

  test('a projection file says what an ASCII grid cannot', async () => {
    const asc = text('ncols 2\nnrows 2\nxllcorner 500000\nyllcorner 4200000\ncellsize 30\n11 12 13 14\n');
    expect(await open({ 'dem.asc': asc })).toMatchObject({ kind: 'question' });
    expect(await open({ 'dem.asc': asc, 'dem.prj': text(WKT) })).toMatchObject({ kind: 'opened' });
  });

  test('that belongs to no file given is refused by its name', async () => {
    expect(await open({ 'dem.tif': makeDem(), 'other.prj': text(WKT) })).toMatchObject({
      kind: 'refused',
      problems: [{ code: 'beside', found: 'other.prj' }],
    });
  });
});
