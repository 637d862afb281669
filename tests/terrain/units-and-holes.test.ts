import { describe, expect, test } from 'vitest';
import type { OpenAnswers } from '../../src/terrain/georeference/open-answers.ts';
import { openElevation } from '../../src/terrain/open/open-elevation.ts';
import { openGeoTiff } from '../../src/terrain/open/open-geotiff.ts';
import { sourceOf } from './fixture-files.ts';
import { demEntries, type MadeEntry, makeTiff, packed } from './tiff-maker.ts';

// A foot is 0.3048 m (EPSG registry, unit 9002). Median slope of a plane: closed form.

const SIDE = 64;
const RISE_EAST = 0.14;

/** Invented ground of cells of 2 m: ridges that slope 14 % for the most part, so that no direction is steeper than another. */
const METRES = Float32Array.from({ length: SIDE * SIDE }, (_, i) => {
  const [x, y] = [2 * (i % SIDE), 2 * Math.floor(i / SIDE)];
  return 300 + 4 * Math.sin((RISE_EAST * x) / 4) + 4 * Math.sin((RISE_EAST * y) / 4);
});

const noData = (text: string): MadeEntry => ({ tag: 42113, type: 2, values: `${text}\0` });
const unitText = (unit: string): MadeEntry => ({
  tag: 42112,
  type: 2,
  values: `<GDALMetadata><Item name="UNITTYPE" sample="0" role="unittype">${unit}</Item></GDALMetadata>\0`,
});

function dem(values: ArrayBufferView, changes: readonly MadeEntry[] = []): Uint8Array {
  const short = (tag: number, value: number): MadeEntry => ({ tag, type: 3, values: [value] });
  const size = [short(256, SIDE), short(257, SIDE), short(278, SIDE)];
  const changed = new Set(changes.map(({ tag }) => tag));
  return makeTiff(demEntries([...size.filter(({ tag }) => !changed.has(tag)), ...changes]), [packed(values)]);
}

const open = (bytes: Uint8Array, answers: OpenAnswers = {}, name = 'made.tif') =>
  openGeoTiff(sourceOf(name, bytes), answers);

async function opened(bytes: Uint8Array, answers: OpenAnswers = {}) {
  const outcome = await open(bytes, answers);
  if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
  const block = await outcome.value.read({ column: 0, row: 0, columns: SIDE, rows: SIDE });
  return { grid: outcome.value, block };
}

describe('heights in undeclared feet were taken for metres without a word', () => {
  test('metres that nothing speaks against are taken, with the slope that the ground then has, and in feet would have', async () => {
    const { grid } = await opened(dem(METRES));
    const note = grid.facts.notes.find(({ code }) => code === 'vertical-unit-assumed');
    // Two crossed waves of slope up to 14 % each: the median lies between half of one and both together.
    expect(note?.data['slope']).toBeGreaterThan(RISE_EAST / 2);
    expect(note?.data['slope']).toBeLessThan(RISE_EAST * 1.5);
    expect(note?.data['slope_in_feet']).toBeCloseTo(0.3048 * Number(note?.data['slope']), 12);
  });

  test('who can be asked is asked once, with metres marked as likely and the evidence beside it', async () => {
    const outcome = await open(dem(METRES), { askUnit: true });
    expect(outcome).toMatchObject({ question: { about: 'verticalUnit', because: 'not-stated', likely: 'metre' } });
    expect(await open(dem(METRES), { askUnit: true, verticalUnit: 'metre' })).toMatchObject({ kind: 'opened' });
    expect(await open(dem(METRES, [unitText('m')]), { askUnit: true })).toMatchObject({ kind: 'opened' });
  });

  test('ground that slopes as no ground does asks without being told to, with the unit in which it would not', async () => {
    const steep = METRES.map((height) => 300 + (height - 300) * 30);
    expect(await open(dem(steep))).toMatchObject({ question: { because: 'slopes-implausible', likely: 'decimetre' } });
    const inFeet = METRES.map((height) => 300 + (height - 300) * 7);
    expect(await open(dem(inFeet))).toMatchObject({ question: { because: 'slopes-implausible', likely: 'foot' } });
  });

  test('whole numbers three and four apart are whole metres that were turned into feet', async () => {
    const rounded = Int16Array.from({ length: SIDE * SIDE }, (_, i) => Math.round(Math.round(200 + i / 60) / 0.3048));
    const int16 = [
      { tag: 33550, type: 12, values: [30, 30, 0] },
      { tag: 258, type: 3, values: [16] },
      { tag: 339, type: 3, values: [2] },
    ];
    expect(await open(dem(rounded, int16))).toMatchObject({
      question: { because: 'numbers-with-gaps', likely: 'foot' },
    });
    const metres = Int16Array.from({ length: SIDE * SIDE }, (_, i) => Math.round(200 + i / 60));
    expect(await open(dem(metres, int16))).toMatchObject({ kind: 'opened' });
  });

  test('a product named by the file is told as evidence', async () => {
    const outcome = await open(
      dem(METRES, [{ tag: 33550, type: 12, values: [30, 30, 0] }]),
      { askUnit: true },
      'N38W123_SRTM.tif',
    );
    expect(outcome).toMatchObject({ question: { evidence: { product: 'a global model of 1 arc second' } } });
  });
});

describe('an answer overruled what the file states', () => {
  test('feet answered for declared metres made heights 0.3048 times too low: now the file stands, and that is told', async () => {
    const { grid, block } = await opened(dem(METRES, [unitText('metre')]), { verticalUnit: 'foot' });
    expect(block.heights[0]).toBe(METRES[0]);
    expect(grid.facts.notes).toContainEqual({
      code: 'answer-not-taken',
      data: { file: 'made.tif', about: 'unit', answered: 'foot', stated: 'metre' },
    });
  });

  test('unless it says so by name', async () => {
    const answers: OpenAnswers = { verticalUnit: 'foot', instead: ['verticalUnit'] };
    const { grid, block } = await opened(dem(METRES, [unitText('metre')]), answers);
    expect(block.heights[0]).toBeCloseTo(0.3048 * (METRES[0] ?? 0), 4);
    expect(grid.facts).toMatchObject({ verticalUnit: 'foot', unitEvidence: 'answered' });
  });

  test('a CRS answered for a file that states its own moved it: now it stays, unless told by name', async () => {
    const stays = await opened(dem(METRES), { crs: 32631 });
    expect(stays.grid.crs).toEqual({ kind: 'epsg', code: 32630 });
    expect(stays.grid.facts.notes).toContainEqual(expect.objectContaining({ code: 'answer-not-taken' }));
    const moved = await opened(dem(METRES), { crs: 32631, instead: ['crs'] });
    expect(moved.grid.crs).toEqual({ kind: 'epsg', code: 32631 });
  });

  test('a CRS answered for a file whose own cannot be computed is taken', async () => {
    const unknown: MadeEntry = {
      tag: 34735,
      type: 3,
      values: [1, 1, 0, 3, 1024, 0, 1, 1, 1025, 0, 1, 1, 3072, 0, 1, 60000],
    };
    expect(await open(dem(METRES, [unknown]))).toMatchObject({
      kind: 'refused',
      problems: [{ expected: expect.stringContaining('EPSG code') }],
    });
    expect((await opened(dem(METRES, [unknown]), { crs: 32630 })).grid.crs).toEqual({ kind: 'epsg', code: 32630 });
  });
});

describe('numbers of 8 bits without a sign', () => {
  const bits: MadeEntry[] = [
    { tag: 258, type: 3, values: [8] },
    { tag: 339, type: 3, values: [1] },
  ];
  const shaded = Uint8Array.from(METRES, (height) => Math.round(height / 2));

  test('were taken for heights of 0 to 255 m: shaded relief, land cover and aerial pictures are asked about', async () => {
    expect(await open(dem(shaded, bits))).toMatchObject({ kind: 'question', question: { about: 'eightBit' } });
  });

  test('are heights when the user says so, or when the file names their unit', async () => {
    expect(await open(dem(shaded, bits), { eightBit: 'heights' })).toMatchObject({ kind: 'opened' });
    expect(await open(dem(shaded, [...bits, unitText('metre')]))).toMatchObject({ kind: 'opened' });
  });
});

describe('several numbers that mean "no height"', () => {
  const holes = METRES.map((height, i) => (i % 50 === 7 ? -32767 : i % 50 === 9 ? -9999 : height));

  test('were one or the other: the one that is found is added to the one that is declared', async () => {
    const asked = await open(dem(holes, [noData('-9999')]));
    expect(asked).toMatchObject({ question: { about: 'noData', suspicious: -32767, stated: '-9999' } });
    const { block } = await opened(dem(holes, [noData('-9999')]), { noData: -32767 });
    expect([block.known[7], block.known[9], block.known[8]]).toEqual([0, 0, 1]);
    expect(block.flaws).toBeUndefined();
  });

  test('are all told at once where none is declared', async () => {
    const { block } = await opened(dem(holes), { noData: [-32767, -9999] });
    expect([block.known[7], block.known[9], block.known[8]]).toEqual([0, 0, 1]);
  });

  test('are as many in an ASCII grid', async () => {
    const text = `ncols 3\nnrows 2\nxllcorner 500000\nyllcorner 4200000\ncellsize 30\nNODATA_value -9999\n11 -9999 12 -32767 13 12\n`;
    const outcome = await openElevation(sourceOf('made.asc', new TextEncoder().encode(text)), {
      crs: 32630,
      noData: -32767,
    });
    if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
    const block = await outcome.value.read({ column: 0, row: 0, columns: 3, rows: 2 });
    expect([...block.known]).toEqual([1, 0, 1, 0, 1, 1]);
  });
});

describe('a flaw in a file', () => {
  test('a single spike refused every line that passed it: it is a hole with a note', async () => {
    const spiked = METRES.slice();
    spiked[100] = 99999;
    const { grid, block } = await opened(dem(spiked));
    expect([block.known[99], block.known[100], block.known[101]]).toEqual([1, 0, 1]);
    expect(grid.flaws?.()).toMatchObject([
      { code: 'odd-heights', count: 1, first: expect.stringMatching(/^99999 at column 36, row 1/) },
    ]);
  });

  test('the same spike in an ASCII grid', async () => {
    const text = `ncols 3\nnrows 2\nxllcorner 500000\nyllcorner 4200000\ncellsize 30\n11 99999 12 12 13 12\n`;
    const outcome = await openElevation(sourceOf('made.asc', new TextEncoder().encode(text)), { crs: 32630 });
    if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
    const block = await outcome.value.read({ column: 0, row: 0, columns: 3, rows: 2 });
    expect([...block.known]).toEqual([1, 0, 1, 1, 1, 1]);
    expect(outcome.value.facts.notes).toContainEqual(expect.objectContaining({ code: 'odd-heights' }));
  });

  /** Four strips of 16 rows, of which some cannot be unpacked. */
  const strips = (...broken: readonly number[]): Uint8Array => {
    const rows = 16;
    const blocks = [0, 1, 2, 3].map((k) => {
      const bytes = packed(METRES.subarray(k * rows * SIDE, (k + 1) * rows * SIDE));
      if (broken.includes(k)) bytes.fill(0xff, 20, 60);
      return bytes;
    });
    const short = (tag: number, value: number): MadeEntry => ({ tag, type: 3, values: [value] });
    return makeTiff(demEntries([short(256, SIDE), short(257, SIDE), short(278, rows)]), blocks);
  };

  test('a broken block ended every command with 1 or refused the file: where the rest is sound it is a hole with a note', async () => {
    const { grid, block } = await opened(strips(2));
    const known = (row: number): number | undefined => block.known[row * SIDE];
    expect([known(31), known(32), known(47), known(48)]).toEqual([1, 0, 0, 1]);
    expect(block.heights[48 * SIDE]).toBe(METRES[48 * SIDE]);
    expect(grid.flaws?.()).toMatchObject([
      { code: 'broken-blocks', count: 1, first: expect.stringMatching(/^strip 2: /) },
    ]);
  });

  test('a file that is broken for the most part is refused', async () => {
    expect(await open(strips(0, 2, 3))).toMatchObject({ kind: 'refused', problems: [{ code: 'broken-block' }] });
  });

  test('bytes that cannot be fetched are no flaw of the file: the read fails as a whole', async () => {
    const failing = sourceOf('made.tif', strips());
    let fails = false;
    const grid = await openGeoTiff(
      {
        ...failing,
        read: (slices) => (fails ? Promise.reject(new Error('the line is cut')) : failing.read(slices)),
      },
      { memory: 40_000 },
    );
    if (grid.kind !== 'opened') throw new Error(JSON.stringify(grid));
    fails = true;
    await expect(grid.value.read({ column: 0, row: 0, columns: SIDE, rows: SIDE })).rejects.toThrow('the line is cut');
  });
});
