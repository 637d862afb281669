import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { COLUMNS, demEntries, HEIGHTS, makeDem, makeTiff, packed, ROWS } from '../terrain/tiff-maker.ts';
import { runCommand } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'rillwright-questions-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const twoBands = makeTiff(
  demEntries([
    { tag: 258, type: 3, values: [32, 32] },
    { tag: 277, type: 3, values: [2] },
    { tag: 339, type: 3, values: [3, 3] },
  ]),
  [packed(Float32Array.from({ length: 2 * HEIGHTS.length }, (_, i) => (HEIGHTS[i >> 1] ?? 0) + (i % 2) * 100))],
);
const centimetres = makeDem(
  [
    { tag: 258, type: 3, values: [16] },
    { tag: 339, type: 3, values: [1] },
  ],
  Uint16Array.from(HEIGHTS, (height) => Math.round(height * 100)),
);
const asciiGrid = Buffer.from(
  `ncols ${COLUMNS}\nnrows ${ROWS}\nxllcorner 500000\nyllcorner 4199980\ncellsize 2\n${[...HEIGHTS].join(' ')}\n`,
);
const holes = makeDem(
  [],
  HEIGHTS.map((height, i) => (i % 5 === 4 ? -9999 : height)),
);

interface Asked {
  readonly bytes: Uint8Array;
  readonly says: RegExp;
  readonly flag: string;
  /** Answers, each with the height that the first cell of the made file then has, m. */
  readonly answers: readonly (readonly [answer: string, height: number])[];
}

const first = HEIGHTS[0] ?? Number.NaN;
const last = HEIGHTS[(ROWS - 1) * COLUMNS] ?? Number.NaN;
const QUESTIONS: Readonly<Record<string, Asked>> = {
  'which of two bands holds the heights': {
    bytes: twoBands,
    says: /found 2 bands/,
    flag: '--band',
    answers: [
      ['1', first],
      ['2', first + 100],
    ],
  },
  'what heights of thirty thousand are in': {
    bytes: centimetres,
    says: /without a unit/,
    flag: '--dem-unit',
    answers: [['centimetre', Math.round(first * 100) / 100]],
  },
  'whether -9999 means "no height"': {
    bytes: holes,
    says: /found -9999 in many cells/,
    flag: '--no-data',
    answers: [['-9999', first]],
  },
  'which EPSG code the coordinates are in': {
    bytes: asciiGrid,
    says: /without a reference system/,
    flag: '--dem-crs',
    answers: [['EPSG:32630', first]],
  },
  'which way the rows run': {
    bytes: makeDem([{ tag: 33550, type: 12, values: [2, -2, 0] }]),
    says: /negative Y scale/,
    flag: '--rows-run',
    answers: [['south', first]],
  },
};

/** A line on the middles of the cells of the first column, from the first cell to the last. */
async function profile(path: string, ...flags: string[]) {
  // cs2cs, PROJ 9.1.1: 500001 E 4199999 N and 4199981 N in EPSG:32630 lie at 37.94758056° N and 37.94741833° N, 2.99998862° W.
  const line = {
    type: 'LineString',
    coordinates: [
      [-2.99998862, 37.94758056],
      [-2.99998862, 37.94741833],
    ],
  };
  return runCommand(['profile', 'line', '--dem', path, '--json', ...flags], { line: JSON.stringify(line) });
}

describe('what an elevation file leaves open is told with the flag that answers it, and the answer is taken', () => {
  test.each(Object.entries(QUESTIONS))('%s', async (name, { bytes, says, flag, answers }) => {
    const path = join(folder, `${name.replaceAll(/\W+/g, '-')}.dem`);
    writeFileSync(path, bytes);
    const asked = await profile(path);
    expect(asked.code).not.toBe(0);
    expect(asked.err).toMatch(says);
    expect(asked.err).toContain(flag);
    expect(asked.out).toBe('');
    for (const [answer, height] of answers) {
      const { code, out, err } = await profile(path, flag, answer);
      if (flag === '--dem-unit') expect(err).toBe('');
      else expect(err).toMatch(/does not name the unit of its heights; metres were taken/);
      expect(code).toBe(0);
      const { samples } = JSON.parse(out);
      expect(samples[0].ground_m).toBeCloseTo(height, 2);
      expect(samples.at(-1).ground_m - samples[0].ground_m).toBeCloseTo(last - first, 1);
    }
  });

  test('the rows of a file run north where the user says so: it then lies on the other side', async () => {
    const path = join(folder, 'north.dem');
    writeFileSync(path, makeDem([{ tag: 33550, type: 12, values: [2, -2, 0] }]));
    const { code, out } = await profile(path, '--rows-run', 'north');
    expect(code).toBe(0);
    expect(JSON.parse(out).samples.every(({ ground_m }: { ground_m: number | null }) => ground_m === null)).toBe(true);
  });

  test.each([
    ['--dem-unit', 'furlong'],
    ['--rows-run', 'east'],
    ['--dem-crs', 'Lambert'],
    ['--band', 'first'],
    ['--no-data', 'nothing'],
    ['--band', '7'],
  ])('%s %s is no answer', async (flag, answer) => {
    const path = join(folder, 'any.dem');
    writeFileSync(path, twoBands);
    const { code, err } = await profile(path, flag, answer);
    expect(code).not.toBe(0);
    expect(err).toMatch(/expected/);
  });
});
