import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { HeightBlock } from '../../src/terrain/grid/grid.ts';
import { sampleBilinear } from '../../src/terrain/ground/bilinear.ts';
import { windowsAlong } from '../../src/terrain/ground/windows-along.ts';

type Cells = readonly (readonly (number | null)[])[];

function blockOf(cells: Cells): HeightBlock {
  const flat = cells.flat();
  return {
    column: 0,
    row: 0,
    columns: cells[0]?.length ?? 0,
    rows: cells.length,
    heights: Float64Array.from(flat, (z) => z ?? 0),
    known: Uint8Array.from(flat, (z) => (z === null ? 0 : 1)),
  };
}

function heightIn(cells: Cells, column: number, row: number): number | null {
  const block = blockOf(cells);
  const out = { height: new Float64Array(1), known: new Uint8Array(1) };
  const track = { column: Float64Array.of(column), row: Float64Array.of(row) };
  sampleBilinear(block, block, track, { first: 0, last: 0 }, out);
  return out.known[0] === 1 ? (out.height[0] ?? null) : null;
}

describe('a height between four cells', () => {
  const four: Cells = [
    [10, 20],
    [30, 60],
  ];

  it('is each cell’s own in its middle and the mean of four where they meet', () => {
    expect(heightIn(four, 0.5, 0.5)).toBe(10);
    expect(heightIn(four, 1.5, 1.5)).toBe(60);
    expect(heightIn(four, 1, 1)).toBe(30);
    // (1−t)(1−s)·10 + t(1−s)·20 + (1−t)s·30 + ts·60 at t = 0.25, s = 0.75: 0.1875·10 + 0.0625·20 + 0.5625·30 + 0.1875·60.
    expect(heightIn(four, 0.75, 1.25)).toBeCloseTo(31.25, 12);
  });

  it('is unknown as soon as one of the four is, but not for a cell of no weight', () => {
    const holed: Cells = [
      [10, 20, 30],
      [30, null, 60],
      [40, 50, 60],
    ];
    expect(heightIn(holed, 1.2, 1.2)).toBeNull();
    expect(heightIn(holed, 0.5, 1.5)).toBe(30);
    expect(heightIn(holed, 0.5, 1.2)).toBeCloseTo(24, 12);
    expect(heightIn(holed, 1.5, 1.5)).toBeNull();
    expect(heightIn(holed, 1.5, 0.5)).toBe(20);
  });

  it('is that of the nearest middle within half a cell of the edge, and none beyond it', () => {
    expect(heightIn(four, 0, 0)).toBe(10);
    expect(heightIn(four, 2, 2)).toBe(60);
    expect(heightIn(four, 0.1, 1)).toBe(20);
    expect(heightIn(four, -0.001, 1)).toBeNull();
    expect(heightIn(four, 1, 2.001)).toBeNull();
    expect(heightIn([[7]], 0.9, 0.1)).toBe(7);
  });

  it('never lies above the highest or below the lowest of them, and a mirrored grid mirrors it', () => {
    const height = fc.oneof(
      { weight: 9, arbitrary: fc.double({ min: -400, max: 8800, noNaN: true }) },
      fc.constant(null),
    );
    const grid = fc.array(fc.array(height, { minLength: 4, maxLength: 4 }), { minLength: 3, maxLength: 3 });
    const place = fc.tuple(fc.double({ min: 0, max: 4, noNaN: true }), fc.double({ min: 0, max: 3, noNaN: true }));
    fc.assert(
      fc.property(grid, place, (cells, [column, row]) => {
        const z = heightIn(cells, column, row);
        const heights = cells.flat().filter((v) => v !== null);
        if (z !== null) {
          expect(z).toBeGreaterThanOrEqual(Math.min(...heights) - 1e-9);
          expect(z).toBeLessThanOrEqual(Math.max(...heights) + 1e-9);
        }
        const mirrored = heightIn([...cells].reverse(), column, 3 - row);
        // Where 3 − row rounds on to a middle the mirrored place has lost its tiny weight on the next row.
        if (z !== null && mirrored !== null) expect(mirrored).toBeCloseTo(z, 6);
      }),
      { numRuns: 500 },
    );
  });
});

describe('the windows that a line needs', () => {
  const size = { columns: 5000, rows: 4000 };
  const limits = { margin: 0, mostCells: 10_000 };
  const place = fc.tuple(
    fc.double({ min: -50, max: 5050, noNaN: true }),
    fc.double({ min: -50, max: 4050, noNaN: true }),
  );

  it('hold the four cells around every sample on the grid, stay inside it and within their limit', () => {
    fc.assert(
      fc.property(fc.array(place, { minLength: 1, maxLength: 40 }), (places) => {
        const track = { column: Float64Array.from(places, (p) => p[0]), row: Float64Array.from(places, (p) => p[1]) };
        const runs = windowsAlong(track, size, limits, () => true);
        places.forEach(([column, row], i) => {
          const inside = column >= 0 && column <= size.columns && row >= 0 && row <= size.rows;
          const run = runs.find((r) => i >= r.first && i <= r.last);
          if (!inside) return;
          expect(run).toBeDefined();
          if (!run) return;
          const { window } = run;
          const left = Math.min(Math.max(Math.floor(column - 0.5), 0), size.columns - 1);
          const bottom = Math.min(Math.max(Math.floor(row - 0.5) + 1, 0), size.rows - 1);
          expect(left).toBeGreaterThanOrEqual(window.column);
          expect(bottom).toBeLessThan(window.row + window.rows);
        });
        for (const { window } of runs) {
          expect(window.column).toBeGreaterThanOrEqual(0);
          expect(window.column + window.columns).toBeLessThanOrEqual(size.columns);
          expect(window.row + window.rows).toBeLessThanOrEqual(size.rows);
          expect(window.columns * window.rows).toBeLessThanOrEqual(limits.mostCells);
        }
      }),
    );
  });

  it('are none for samples that have their heights already', () => {
    const track = { column: Float64Array.of(10, 20), row: Float64Array.of(10, 20) };
    expect(windowsAlong(track, size, limits, () => false)).toEqual([]);
    expect(windowsAlong(track, size, limits, (i) => i === 1)).toMatchObject([{ first: 1, last: 1 }]);
  });
});
