import { describe, expect, it } from 'vitest';
import { groundWindow } from '../../src/terrain/ground/ground-window.ts';
import { gridOf, METRE_CELLS } from './grid-in-memory.ts';
import { placed, positionOf } from './placed.ts';

const height = (c: number, r: number) => 100 + c * 0.3 - r * 0.2 + Math.sin(c) * Math.cos(r);

describe('a rectangle of heights around places', () => {
  it('holds the heights of the file under the same positions, in cells of its own', async () => {
    const grid = await placed(gridOf(90, 70, height));
    const around = [positionOf(grid, 30.5, 20.5), positionOf(grid, 50.5, 40.5)];
    const found = await groundWindow([grid], { around, margin: 7, mostCells: 1e6 });
    if (found.kind !== 'read') throw new Error(found.kind);
    const { block, coarser, cell } = found.window;
    expect([coarser, block.column, block.row]).toEqual([1, 0, 0]);
    // Cells of a metre of the projection, which is 0.9996 of a metre on the ground on its central meridian.
    expect(cell.eastPerColumn).toBeCloseTo(1 / 0.9996, 6);
    expect(cell.northPerRow).toBeCloseTo(-1 / 0.9996, 6);
    for (const [c, r] of [
      [30, 20],
      [50, 40],
      [24, 14],
      [57, 47],
    ] as const) {
      const at = found.window.cellAt(positionOf(grid, c + 0.5, r + 0.5));
      if (!at) throw new Error('no cell');
      expect(block.heights[Math.floor(at.row) * block.columns + Math.floor(at.column)]).toBe(height(c, r));
      const back = found.window.positionAt(at);
      expect(back?.lon).toBeCloseTo(positionOf(grid, c + 0.5, r + 0.5).lon, 10);
    }
  });

  it('takes means of whole squares of cells when there are too many, and none where one has no height', async () => {
    const grid = await placed(gridOf(100, 100, (c, r) => (c === 3 && r === 4 ? null : height(c, r))));
    const around = [positionOf(grid, 60, 60)];
    const found = await groundWindow([grid], { around, margin: 200, mostCells: 2500 });
    if (found.kind !== 'read') throw new Error(found.kind);
    const { block, coarser } = found.window;
    expect([coarser, block.columns, block.rows]).toEqual([2, 50, 50]);
    const mean = (c: number, r: number) =>
      (height(2 * c, 2 * r) + height(2 * c + 1, 2 * r) + height(2 * c, 2 * r + 1) + height(2 * c + 1, 2 * r + 1)) / 4;
    expect(block.heights[7 * 50 + 30]).toBeCloseTo(mean(30, 7), 12);
    expect(Array.from(block.known).filter((k) => k === 0)).toHaveLength(1);
    expect(block.known[2 * 50 + 1]).toBe(0);
    const at = found.window.cellAt(positionOf(grid, 61, 15));
    expect(at?.column).toBeCloseTo(30.5, 6);
    expect(at?.row).toBeCloseTo(7.5, 6);
  });

  it('takes a coarser copy of the file before it takes means', async () => {
    const copy = gridOf(25, 25, () => 7, { name: 'copy', affine: { ...METRE_CELLS, a: 4, e: -4 } });
    const grid = await placed(gridOf(100, 100, height, { name: 'dem', overviews: [copy] }));
    const found = await groundWindow([grid], { around: [positionOf(grid, 50, 50)], margin: 200, mostCells: 700 });
    if (found.kind !== 'read') throw new Error(found.kind);
    expect(found.window).toMatchObject({ coarser: 4, file: 'dem' });
    expect(found.window.block.heights[0]).toBe(7);
    expect(found.window.cellAt(positionOf(grid, 50, 50))?.column).toBeCloseTo(12.5, 6);
  });

  it('is read from the first grid that has a height at every place', async () => {
    const fine = await placed(gridOf(40, 40, height, { name: 'fine' }));
    const wide = await placed(gridOf(60, 60, () => 3, { name: 'wide', affine: { ...METRE_CELLS, a: 2, e: -2 } }));
    const inside = { around: [positionOf(fine, 20, 20)], margin: 5, mostCells: 1e6 };
    const beyond = { ...inside, around: [positionOf(fine, 20, 20), positionOf(wide, 40, 40)] };
    const near = await groundWindow([fine, wide], inside);
    const far = await groundWindow([fine, wide], beyond);
    expect(near.kind === 'read' && near.window.file).toBe('fine');
    expect(far.kind === 'read' && far.window.file).toBe('wide');
    const nowhere = { ...inside, around: [positionOf(fine, 20, 20), positionOf(wide, 70, 20)] };
    expect(await groundWindow([fine, wide], nowhere)).toEqual({ kind: 'no-height', at: nowhere.around[1] });
  });
});
