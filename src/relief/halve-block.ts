import type { Heights } from './heights.ts';

/** A coarse cell is known when at least this many of its four finer cells are, so that voids neither grow nor vanish. */
const ENOUGH = 2;

/** Writes the 2 × 2 means of a finer block into the cells of the coarser block that it covers. */
export function halveBlock(fine: Heights, coarse: Heights): void {
  const endRow = Math.ceil((fine.row + fine.rows) / 2);
  const endColumn = Math.ceil((fine.column + fine.columns) / 2);
  for (let row = fine.row / 2; row < endRow; row += 1) {
    for (let column = fine.column / 2; column < endColumn; column += 1) {
      const at = (row - coarse.row) * coarse.columns + column - coarse.column;
      writeMean(fine, 2 * column - fine.column, 2 * row - fine.row, coarse, at);
    }
  }
}

function writeMean(fine: Heights, left: number, top: number, coarse: Heights, at: number): void {
  let sum = 0;
  let count = 0;
  let cells = 0;
  for (let row = top; row < Math.min(top + 2, fine.rows); row += 1) {
    for (let column = left; column < Math.min(left + 2, fine.columns); column += 1) {
      const cell = row * fine.columns + column;
      cells += 1;
      if (fine.known[cell] === 0) continue;
      sum += fine.heights[cell] ?? 0;
      count += 1;
    }
  }
  if (count < Math.min(ENOUGH, cells)) return;
  coarse.heights[at] = sum / count;
  coarse.known[at] = 1;
}
