import { describe, expect, test } from 'vitest';
import type { OpenAnswers } from '../../src/terrain/georeference/open-answers.ts';
import { groundAt } from '../../src/terrain/ground/ground-at.ts';
import { openElevation } from '../../src/terrain/open/open-elevation.ts';
import { fixtureBytes, sourceOf } from './fixture-files.ts';
import { gridOf } from './grid-in-memory.ts';
import { placed, positionOf } from './placed.ts';
import { COLUMNS, type MadeEntry, makeDem, ROWS } from './tiff-maker.ts';

async function opened(name: string, bytes: Uint8Array, answers: OpenAnswers = {}) {
  const outcome = await openElevation(sourceOf(name, bytes), answers);
  if (outcome.kind !== 'opened') throw new Error(JSON.stringify(outcome));
  return outcome.value;
}

const codes = async (bytes: Uint8Array, answers: OpenAnswers = {}) =>
  (await opened('made.tif', bytes, answers)).facts.notes.map(({ code }) => code);

describe('a note that metres were taken', () => {
  test('is made where nothing states the unit, and only there', async () => {
    expect(await codes(makeDem())).toContain('vertical-unit-assumed');
    expect(await codes(makeDem(), { verticalUnit: 'metre' })).not.toContain('vertical-unit-assumed');
    expect(await codes(fixtureBytes('feet-unit-text'))).not.toContain('vertical-unit-assumed');
  });
});

describe('a note that no cell can hold the stated nodata', () => {
  /** A file of whole numbers of so many bits, format 1 without a sign or 2 with one, and its stated nodata. */
  function whole(bits: 8 | 16, format: 1 | 2, noData: string): Uint8Array {
    const numbers = Array.from({ length: COLUMNS * ROWS }, (_, k) => 20 + (k % 30));
    const heights = bits === 8 ? Int8Array.from(numbers) : Uint16Array.from(numbers);
    const entries: MadeEntry[] = [
      { tag: 258, type: 3, values: [bits] },
      { tag: 339, type: 3, values: [format] },
      { tag: 42113, type: 2, values: `${noData}\0` },
    ];
    return makeDem(entries, heights);
  }

  // Ranges of whole numbers in two's complement.
  test.each([
    [16, 1, '-9999', true],
    [16, 1, '65535', false],
    [16, 1, '65536', true],
    [16, 1, '0.5', true],
    [16, 2, '-32768', false],
    [16, 2, '-32769', true],
    [16, 2, '32767', false],
    [16, 2, '32768', true],
    [8, 2, '127', false],
    [8, 2, '128', true],
  ] as const)('%i bits of format %i with %s: %s', async (bits, format, noData, told) => {
    const found = await codes(whole(bits, format, noData), { verticalUnit: 'metre' });
    expect(found.includes('no-data-unreachable')).toBe(told);
  });
});

describe('a cell that an ASCII grid calls nan', () => {
  test.each(['nan', 'NaN', '-nan', '+NAN'])('has no height: %s', async (word) => {
    const text = `ncols 3\nnrows 2\nxllcorner 1000\nyllcorner 2000\ncellsize 10\n1 2 3\n4 ${word} 6\n`;
    const grid = await opened('made.asc', new TextEncoder().encode(text), { crs: 32630, verticalUnit: 'metre' });
    const { known } = await grid.read({ column: 0, row: 0, columns: 3, rows: 2 });
    expect([...known]).toEqual([1, 1, 1, 1, 0, 1]);
  });
});

describe('a point that the finest grid knows', () => {
  test('keeps its height although a coarser one is read around it for its neighbours', async () => {
    const fine = await placed(gridOf(60, 10, (c) => (c >= 20 && c < 40 ? 1 : null), { name: 'fine' }));
    const coarse = await placed(gridOf(60, 10, () => 7, { name: 'coarse' }));
    const points = [5, 30, 55].map((column) => positionOf(fine, column, 5));
    expect((await groundAt([fine, coarse], points)).map(({ ground }) => ground)).toEqual([7, 1, 7]);
  });
});
