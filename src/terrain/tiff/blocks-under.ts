import type { CellWindow } from '../grid/grid.ts';
import type { BlockPlaces } from './block-places.ts';
import type { BlockIndex } from './block-store.ts';

interface Size {
  readonly columns: number;
  readonly rows: number;
}

/** The blocks that a window touches. */
export function blocksUnder(window: CellWindow, places: BlockPlaces, size: Size): BlockIndex[] {
  const left = Math.max(0, window.column);
  const right = Math.min(size.columns, window.column + window.columns) - 1;
  const top = Math.max(0, window.row);
  const bottom = Math.min(size.rows, window.row + window.rows) - 1;
  const blocks: BlockIndex[] = [];
  if (left > right || top > bottom) return blocks;
  for (let row = places.blockRowOf(top); row <= places.blockRowOf(bottom); row++) {
    const last = Math.floor(right / places.blockColumns);
    for (let column = Math.floor(left / places.blockColumns); column <= last; column++) blocks.push({ column, row });
  }
  return blocks;
}

/** One run of cells that a block and a window share: where it starts in either, and how long it is. */
export type EachRun = (from: number, to: number, length: number) => void;

/** The cells that a block and a window share, row by row. */
export function sharedRuns(index: BlockIndex, places: BlockPlaces, out: CellWindow, size: Size, each: EachRun): void {
  const blockLeft = index.column * places.blockColumns;
  const blockTop = places.top(index.row);
  const left = Math.max(out.column, blockLeft, 0);
  const right = Math.min(out.column + out.columns, blockLeft + places.blockColumns, size.columns);
  const top = Math.max(out.row, blockTop, 0);
  const bottom = Math.min(out.row + out.rows, blockTop + places.rowsOf(index.row), size.rows);
  if (right <= left) return;
  for (let row = top; row < bottom; row++) {
    const from = (row - blockTop) * places.blockColumns + left - blockLeft;
    const to = (row - out.row) * out.columns + left - out.column;
    each(from, to, right - left);
  }
}
