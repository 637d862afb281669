import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { OpenAnswers, OpenOutcome } from '../../src/terrain/georeference/open-answers.ts';
import { AsciiNumbers } from '../../src/terrain/open/ascii-numbers.ts';
import { openElevation } from '../../src/terrain/open/open-elevation.ts';
import type { OpenedGrid } from '../../src/terrain/open/opened-grid.ts';
import { sourceOf } from './fixture-files.ts';

// Form: Esri, ArcGIS documentation, "Esri ASCII raster format". Values: GDAL 3.6.2 (fixtures/README.md).

const text = (words: string) => new TextEncoder().encode(words);
const open = (words: string, answers: OpenAnswers = { crs: 32630 }): Promise<OpenOutcome<OpenedGrid>> =>
  openElevation(sourceOf('made.asc', text(words)), answers);
const grid = (head: string, body: string) => `${head}\n${body}\n`;
const HEAD = 'ncols 3\nnrows 2\nxllcorner 1000\nyllcorner 2000\ncellsize 10\nNODATA_value -9999';

async function opened(words: string, answers?: OpenAnswers): Promise<OpenedGrid> {
  const outcome = await open(words, answers);
  if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
  return outcome.value;
}

test('every height of an ASCII grid is the one that GDAL decodes from it', async () => {
  const folder = new URL('./fixtures/', import.meta.url);
  const expected: { values: (number | null)[] } = JSON.parse(
    readFileSync(new URL('ascii-grid-by-gdal.json', folder), 'utf8'),
  );
  const bytes = new Uint8Array(readFileSync(new URL('ascii-grid.asc', folder)));
  const outcome = await openElevation(sourceOf('ascii-grid.asc', bytes), { crs: 32630 });
  if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
  expect(outcome.value.affine).toEqual({ a: 2, b: 0, c: 500000, d: 0, e: -2, f: 4200000 });
  const block = await outcome.value.read({ column: 0, row: 0, columns: 21, rows: 19 });
  expect(expected.values.length).toBe(block.heights.length);
  for (const [i, value] of expected.values.entries()) {
    expect(block.known[i]).toBe(value === null ? 0 : 1);
    // GDAL keeps what it reads in 32 bits.
    expect(Math.fround(block.heights[i] ?? Number.NaN)).toBe(value === null ? 0 : Math.fround(value));
  }
});

describe('the head of an ASCII grid', () => {
  test('a corner and the middle of the corner cell say the same', async () => {
    const corner = await opened(grid(HEAD, '1 2 3\n4 5 6'));
    const centre = await opened(
      grid(
        HEAD.replace('xllcorner 1000', 'XLLCENTER 1005').replace('yllcorner 2000', 'YLLCENTER 2005'),
        '1 2 3\n4 5 6',
      ),
    );
    expect(corner.affine).toEqual({ a: 10, b: 0, c: 1000, d: 0, e: -10, f: 2020 });
    expect(centre.affine).toEqual(corner.affine);
  });

  test('the first number is the north-west cell', async () => {
    const block = await (await opened(grid(HEAD, '11 12 13\n14 -9999 16'))).read({
      column: 0,
      row: 0,
      columns: 3,
      rows: 2,
    });
    expect([...block.heights]).toEqual([11, 12, 13, 14, 0, 16]);
    expect([...block.known]).toEqual([1, 1, 1, 1, 0, 1]);
  });

  test('it asks for the coordinate reference system that it cannot state', async () => {
    expect(await open(grid(HEAD, '1 2 3 4 5 6'), {})).toMatchObject({
      kind: 'question',
      question: { about: 'crs', corners: [1000, 2000, 1030, 2020] },
    });
  });

  test('undeclared nodata is asked about', async () => {
    const outcome = await open(grid(HEAD.replace('\nNODATA_value -9999', ''), '11 -9999 -9999 14 -9999 16'));
    expect(outcome).toMatchObject({ kind: 'question', question: { about: 'noData', suspicious: -9999 } });
  });

  test.each([
    ['no columns', HEAD.replace('ncols 3', 'ncols 0'), 'raster-size'],
    ['a size that is no number', HEAD.replace('ncols 3', 'ncols three'), 'ascii-header'],
    ['no place', HEAD.replace('xllcorner 1000\n', ''), 'ascii-header'],
    ['cells of no size', HEAD.replace('cellsize 10', 'cellsize 0'), 'cell-size'],
    ['a key twice', HEAD.replace('nrows 2', 'nrows 2\nnrows 3'), 'ascii-header'],
    ['more cells than the file can hold', HEAD.replace('nrows 2', 'nrows 100000'), 'short-file'],
    ['a corner beyond the earth', HEAD.replace('xllcorner 1000', 'xllcorner 1e300'), 'off-the-earth'],
  ])('%s is refused', async (_, head, code) => {
    expect(await open(grid(head, '1 2 3 4 5 6'))).toMatchObject({ kind: 'refused', problems: [{ code }] });
  });

  test.each([
    ['too few heights', '1 2 3 4 5         ', 'short-file'],
    ['too many heights', '1 2 3 4 5 6 7', 'long-file'],
    ['a decimal comma', '1 2,5 3 4 5 6', 'ascii-number'],
    ['a word', '1 2 three 4 5 6', 'ascii-number'],
    ['a hole where the heights should be', `1 2 3${'\0'.repeat(100)}`, 'ascii-number'],
    ['an endless number', `1 2 ${'9'.repeat(5000)} 4 5 6`, 'ascii-number'],
    ['nodata alone', '-9999 -9999 -9999 -9999 -9999 -9999', 'no-heights'],
  ])('%s is refused', async (_, body, code) => {
    expect(await open(grid(HEAD, body))).toMatchObject({ kind: 'refused', problems: [{ code }] });
  });

  test('a grid beyond the budget of memory is refused before its heights are read', async () => {
    const source = sourceOf('made.asc', text(grid(HEAD.replace('ncols 3', 'ncols 3000'), '1 '.repeat(6000))));
    expect(await openElevation(source, { crs: 32630, memory: 40_000 })).toMatchObject({
      problems: [{ code: 'memory' }],
    });
    expect(source.bytesRead).toBeLessThan(8192);
  });
});

test('numbers read in pieces are those that the language reads whole', () => {
  const written = fc.oneof(
    fc.double({ min: -9000, max: 9000, noNaN: true }).map((value) => `${value}`),
    fc.double({ min: -9000, max: 9000, noNaN: true }).map((value) => value.toFixed(4)),
    fc.integer({ min: -40000, max: 40000 }).map((value) => `${value}`),
    fc.double({ min: -1, max: 1, noNaN: true }).map((value) => value.toExponential(6)),
    fc.constantFrom('.5', '5.', '-0', '+3', '1E3', '123456789012345678901.5'),
  );
  fc.assert(
    fc.property(fc.array(written, { minLength: 1, maxLength: 40 }), fc.integer({ min: 1, max: 30 }), (words, piece) => {
      const found: number[] = [];
      const numbers = new AsciiNumbers((value) => found.push(value));
      const bytes = text(words.join(' '));
      for (let at = 0; at < bytes.length; at += piece) numbers.add(bytes.subarray(at, at + piece));
      numbers.end();
      expect(found.map((value) => value + 0)).toEqual(words.map((word) => Number(word) + 0));
    }),
  );
});
