import { describe, expect, it } from 'vitest';
import { Z90 } from '../../src/evaluation/statistics/normal.ts';
import { accuracyClasses, accuracyOfClass } from '../../src/terrain/accuracy/height-accuracy.ts';
import { varianceOfDifference } from '../../src/terrain/accuracy/height-variogram.ts';
import { documents } from './documents.ts';

/** The example of the document: a fall of 2 m over 100 m of level ground. */
const FALL = 2;
const DISTANCE = 100;

const text = documents().find(({ path }) => path === 'docs/getting-a-dem.md')?.text ?? '';
const rows = [...text.matchAll(/^\| `([\w-]+)` \|[^|]*\| ([\d.]+) m \| (−?[\d.]+) to ([\d.]+) m \|$/gm)].map(
  (match) => ({
    id: match[1] ?? '',
    numbers: match.slice(2).map((figure) => Number((figure ?? '').replace('−', '-'))),
  }),
);

/** Cells well below the distance, so that their size does not matter. */
const grid = { cell: 1, quantum: 0 };

describe('what a fall of 2 m means, in the guide to elevation models', () => {
  it('names every class of the planner', () => {
    const ids = accuracyClasses.map(({ id }) => id);
    expect(rows.map(({ id }) => id).sort()).toEqual([...ids].sort());
  });

  it.each(rows)('gives the spread that the planner reckons with: $id', ({ id, numbers }) => {
    const accuracy = accuracyOfClass(id, grid);
    if (accuracy === null) throw new Error(`${id}: found no such class`);
    const spread = Math.sqrt(varianceOfDifference(accuracy, { distance: DISTANCE, slopes: [0, 0] }));
    const expected = [spread, FALL - Z90 * spread, FALL + Z90 * spread];
    numbers.forEach((figure, k) => {
      // Two digits are printed.
      expect(Math.abs(figure - (expected[k] ?? Number.NaN))).toBeLessThan(0.0051);
    });
  });
});
