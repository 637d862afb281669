import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { type Clip, clipElevation } from '../../src/terrain/clip/clip-elevation.ts';
import type { OpenAnswers } from '../../src/terrain/georeference/open-answers.ts';
import { openElevation } from '../../src/terrain/open/open-elevation.ts';
import type { OpenedGrid } from '../../src/terrain/open/opened-grid.ts';
import { decoded, fixtureBytes, sourceOf } from './fixture-files.ts';
import { placed, positionOf } from './placed.ts';
import { makeDem } from './tiff-maker.ts';

/** What GDAL reads from a file that was written here: see fixtures/read-clips.py. */
interface ReadByGdal {
  readonly sha256: string;
  readonly type: string;
  readonly geotransform: readonly number[];
  readonly no_data: number;
  readonly unit: string;
  readonly crs: string | null;
  readonly vertical: string | null;
  readonly proj: string;
  readonly values: readonly (readonly (number | null)[])[];
}

const FOLDER = fileURLToPath(new URL('./fixtures/', import.meta.url));
const recordedFile = `${FOLDER}clips-by-gdal.json`;
const recorded: Readonly<Record<string, ReadByGdal>> = existsSync(recordedFile)
  ? JSON.parse(readFileSync(recordedFile, 'utf8')).files
  : {};

async function opened(name: string, bytes: Uint8Array, answers: OpenAnswers = {}): Promise<OpenedGrid> {
  const outcome = await openElevation(sourceOf(name, bytes), answers);
  if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
  return outcome.value;
}

/** The window of six columns and five rows from column 8 and row 9: the cells of two places and one more all round. */
const WINDOW = { column: 8, row: 9, columns: 6, rows: 5 };

async function clipOf(grid: OpenedGrid, margin = 0): Promise<Clip> {
  const lattice = await placed(grid);
  const around = [positionOf(lattice, 9.5, 10.5), positionOf(lattice, 12.5, 12.5)];
  const clip = await clipElevation([grid], { around, margin });
  if (!clip.ok) throw new Error(JSON.stringify(clip.problems));
  return clip.value;
}

/** What GDAL reads from exactly these bytes; the file is left for read-clips.py where it reads other bytes. */
function byGdal(name: string, { bytes }: Clip): ReadByGdal {
  const sha256 = createHash('sha256').update(new Uint8Array(bytes)).digest('hex');
  const read = recorded[name];
  if (read?.sha256 === sha256) return read;
  mkdirSync(`${FOLDER}clips`, { recursive: true });
  writeFileSync(`${FOLDER}clips/${name}-changed.tif`, new Uint8Array(bytes));
  throw new Error(`${name}: found other bytes than GDAL read; see fixtures/read-clips.py`);
}

/** Heights that GDAL reads in the same window of the file the clip was taken from. */
function sourceValues(fixture: string): (number | null)[][] {
  const { columns, files, arrays } = decoded;
  const file = files[fixture];
  const all = file && arrays[file.values];
  if (!file || !all) throw new Error(`found no fixture ${fixture}`);
  return Array.from({ length: WINDOW.rows }, (_, r) =>
    Array.from({ length: WINDOW.columns }, (__, c) => {
      const stored = all[(WINDOW.row + r) * columns + WINDOW.column + c] ?? null;
      return stored === null ? null : stored * file.scale + file.offset;
    }),
  );
}

describe('a window of an elevation file is read by GDAL', () => {
  const CASES = [
    ['feet-unit-text', { unit: 'foot', crs: '32630', no_data: -9999, type: 'Float32' }],
    ['feet-vertical-crs', { unit: 'US survey foot', vertical: 'NAVD88 height (ftUS)', type: 'Float32' }],
    ['degrees', { crs: '4326', type: 'Float32' }],
    ['little-int16-lzw-p2', { no_data: -32768, type: 'Float32' }],
    ['little-float64-lzw-p2', { type: 'Float64' }],
    ['nodata-nan', { no_data: -9999, type: 'Float32' }],
    ['point', { crs: '32630' }],
    ['rotated', { crs: '32630' }],
    ['south-up', { crs: '32630' }],
    ['tiepoint-10-7', { crs: '32630' }],
    ['scale-offset', { type: 'Float64' }],
  ] as const;

  test.each(CASES)('with the heights, the cells and the words of %s', async (name, words) => {
    const read = byGdal(name, await clipOf(await opened(`${name}.tif`, fixtureBytes(name))));
    expect(read).toMatchObject(words);
    const heights = sourceValues(name);
    for (const [r, row] of heights.entries())
      for (const [c, height] of row.entries()) {
        if (height === null) expect(read.values[r]?.[c]).toBeNull();
        else expect(read.values[r]?.[c]).toBeCloseTo(height, 6);
      }
    const [c = 0, a = 0, b = 0, f = 0, d = 0, e = 0] = decoded.files[name]?.geotransform ?? [];
    const { column, row } = WINDOW;
    const corner = [c + a * column + b * row, a, b, f + d * column + e * row, d, e];
    for (const [k, value] of corner.entries()) expect(read.geotransform[k]).toBeCloseTo(value, 9);
  });

  test('in a projection that is written out in its keys', async () => {
    const { projections } = JSON.parse(readFileSync(`${FOLDER}user-projections.json`, 'utf8'));
    const { keys, doubles, ascii, proj, x, y } = projections['transverse Mercator'];
    const bytes = makeDem([
      { tag: 34735, type: 3, values: keys },
      { tag: 34736, type: 12, values: doubles },
      { tag: 34737, type: 2, values: ascii },
      { tag: 33922, type: 12, values: [0, 0, 0, x, y, 0] },
    ]);
    const grid = await opened('written-out.tif', bytes, { verticalUnit: 'metre' });
    const lattice = await placed(grid);
    const clip = await clipElevation([grid], { around: [positionOf(lattice, 5.5, 5.5)], margin: 0 });
    if (!clip.ok) throw new Error(JSON.stringify(clip));
    const read = byGdal('written-out', clip.value);
    for (const word of proj.split(' ').filter((each: string) => /^\+(?:proj|lat_0|lon_0|k|x_0|y_0)=/.test(each)))
      expect(read.proj).toContain(word);
    expect(read.unit).toBe('metre');
  });
});

describe('a window', () => {
  test('is read back here as it was', async () => {
    const name = 'feet-vertical-crs';
    const first = await opened(`${name}.tif`, fixtureBytes(name));
    const clip = await clipOf(first);
    const again = await opened('clip.tif', new Uint8Array(clip.bytes));
    expect(again.facts).toMatchObject({ verticalUnit: 'US survey foot', verticalDatum: first.facts.verticalDatum });
    expect(again.crs).toEqual(first.crs);
    const before = await first.read(WINDOW);
    const after = await again.read({ column: 0, row: 0, columns: WINDOW.columns, rows: WINDOW.rows });
    expect([...after.heights]).toEqual([...before.heights]);
  });

  test('states no unit that its file does not state', async () => {
    const clip = await clipOf(await opened('point.tif', fixtureBytes('point')));
    expect(clip).toMatchObject({ unit: 'metre', unitIsStated: false });
    expect((await opened('clip.tif', new Uint8Array(clip.bytes))).facts.unitEvidence).toBe('assumed');
  });

  test('states what the user said where the file said nothing: code and unit', async () => {
    const keyless = makeDem([{ tag: 34735, type: 3, values: [1, 1, 0, 1, 1025, 0, 1, 1] }]);
    const grid = await opened('keyless.tif', keyless, { crs: 32630, verticalUnit: 'foot' });
    const lattice = await placed(grid);
    const clip = await clipElevation([grid], { around: [positionOf(lattice, 5, 5)], margin: 4 });
    if (!clip.ok) throw new Error(JSON.stringify(clip));
    const again = await opened('clip.tif', new Uint8Array(clip.value.bytes));
    expect(again.crs).toEqual({ kind: 'epsg', code: 32630 });
    expect(again.facts).toMatchObject({ verticalUnit: 'foot', unitEvidence: 'VerticalUnits' });
  });

  test('reaches as far beyond the places as was asked, and no further than the file', async () => {
    const grid = await opened('point.tif', fixtureBytes('point'));
    // Cells of 2 m; places in columns 9 to 12 and rows 10 to 12, a cell more all round; the file has 21 columns and 19 rows.
    expect(await clipOf(grid, 4)).toMatchObject({ columns: 6 + 4, rows: 5 + 4 });
    expect(await clipOf(grid, 1000)).toMatchObject({ columns: 21, rows: 19 });
  });

  test('takes its nodata from the file unless a height has that number', async () => {
    // The fixture's −32768 stands for no height; the heights do not have it.
    expect((await clipOf(await opened('a.tif', fixtureBytes('little-int16-lzw-p2')))).noData).toBe(-32768);
    const bytes = makeDem([{ tag: 42113, type: 2, values: '12.5' }]);
    expect((await opened('b.tif', bytes)).facts.noData).toBe(12.5);
  });

  test('is refused where a place of the plan lies outside, or where it would hold too many cells', async () => {
    const grid = await opened('point.tif', fixtureBytes('point'));
    const lattice = await placed(grid);
    const outside = await clipElevation([grid], { around: [positionOf(lattice, 30, 5)], margin: 0 });
    expect(outside).toMatchObject({ ok: false, problems: [{ code: 'clip-outside', path: 'point.tif' }] });
    const huge: OpenedGrid = { ...grid, columns: 40_000, rows: 40_000, read: grid.read.bind(grid) };
    const large = await clipElevation([huge], { around: [positionOf(lattice, 5, 5)], margin: 100_000 });
    expect(large).toMatchObject({ ok: false, problems: [{ code: 'clip-too-large' }] });
  });

  test('comes from the finest model that covers every place', async () => {
    const fine = await opened('point.tif', fixtureBytes('point'));
    const coarse: OpenedGrid = {
      ...fine,
      name: 'coarse.tif',
      columns: 100,
      rows: 100,
      affine: { a: 10, b: 0, c: 499_900, d: 0, e: -10, f: 4_200_100 },
      read: async (window) => ({
        ...window,
        heights: new Float32Array(window.columns * window.rows).fill(7),
        known: new Uint8Array(window.columns * window.rows).fill(1),
      }),
    };
    const lattice = await placed(fine);
    const files = async (column: number) => {
      const clip = await clipElevation([coarse, fine], { around: [positionOf(lattice, column, 9)], margin: 0 });
      return clip.ok ? clip.value.files : clip.problems;
    };
    expect(await files(9)).toEqual(['point.tif']);
    expect(await files(40)).toEqual(['coarse.tif']);
  });
});
