import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { levelWithin } from '../../src/terrain/ground/window-budget.ts';
import { gridOf, METRE_CELLS } from './grid-in-memory.ts';

const copy = (times: number) =>
  gridOf(1000 / times, 800 / times, () => 1, {
    name: `1:${times}`,
    affine: { ...METRE_CELLS, a: times, e: -times },
  });
const full = gridOf(1000, 800, () => 1, { name: 'dem', overviews: [copy(2), copy(4), copy(8)] });
const whole = { column: 0, row: 0, columns: 1000, rows: 800 };

describe('a window that would take too much memory', () => {
  it('is read from the finest copy that fits', () => {
    // 1000 × 800 cells of nine bytes are 7.2 MB; halved both ways, 1.8 MB.
    const roomy = levelWithin(full, whole, 7_200_000);
    const tight = levelWithin(full, whole, 7_199_999);
    expect(roomy.ok && roomy.value.grid.name).toBe('dem');
    expect(tight.ok && tight.value.grid.name).toBe('1:2');
    expect(tight.ok && tight.value.window).toEqual({ column: 0, row: 0, columns: 500, rows: 400 });
  });

  it('is refused when no copy fits', () => {
    const found = levelWithin(full, whole, 1000);
    expect(found.ok ? '' : found.problems[0]?.code).toBe('window-too-large');
  });

  it('is covered by the cells of the copy, wherever it lies, and stays inside it', () => {
    const start = fc.tuple(fc.integer({ min: 0, max: 999 }), fc.integer({ min: 0, max: 799 }));
    fc.assert(
      fc.property(start, fc.integer({ min: 1, max: 1000 }), fc.integer({ min: 1, max: 800 }), ([column, row], w, h) => {
        const window = { column, row, columns: Math.min(w, 1000 - column), rows: Math.min(h, 800 - row) };
        const found = levelWithin(full, window, 20_000 * 9);
        if (!found.ok) throw new Error(found.problems[0]?.found);
        const { grid, window: cells } = found.value;
        const times = 1000 / grid.columns;
        expect(cells.column * times).toBeLessThanOrEqual(column);
        expect((cells.column + cells.columns) * times).toBeGreaterThanOrEqual(column + window.columns);
        expect((cells.row + cells.rows) * times).toBeGreaterThanOrEqual(row + window.rows);
        expect(cells.column + cells.columns).toBeLessThanOrEqual(grid.columns);
        expect(cells.columns * cells.rows).toBeLessThanOrEqual(20_000);
      }),
    );
  });
});
