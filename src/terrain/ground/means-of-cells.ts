import type { CellWindow, ElevationGrid, HeightBlock } from '../grid/grid.ts';

/** Cells that are read at a time. */
const CELLS_AT_A_TIME = 1_000_000;

/** Means of squares of `times` × `times` cells of a window, read strip by strip; a square with a void has no height. */
export async function meansOf(
  grid: ElevationGrid,
  window: CellWindow,
  times: number,
  signal?: AbortSignal,
): Promise<HeightBlock> {
  const columns = Math.max(1, Math.floor(window.columns / times));
  const rows = Math.max(1, Math.floor(window.rows / times));
  const heights = new Float64Array(columns * rows);
  const known = new Uint8Array(columns * rows);
  const atATime = Math.max(1, Math.floor(CELLS_AT_A_TIME / (window.columns * times)));
  for (let first = 0; first < rows; first += atATime) {
    signal?.throwIfAborted();
    const last = Math.min(rows, first + atATime);
    const strip = {
      ...window,
      row: window.row + first * times,
      rows: Math.min(window.rows, last * times) - first * times,
    };
    const block = await grid.read(strip, signal);
    for (let row = first; row < last; row++) {
      for (let column = 0; column < columns; column++) {
        const mean = meanOf(block, { column: column * times, row: (row - first) * times }, times);
        if (mean === null) continue;
        heights[row * columns + column] = mean;
        known[row * columns + column] = 1;
      }
    }
  }
  return { column: 0, row: 0, columns, rows, heights, known };
}

function meanOf(block: HeightBlock, from: { column: number; row: number }, times: number): number | null {
  let sum = 0;
  for (let r = from.row; r < from.row + times; r++) {
    for (let c = from.column; c < from.column + times; c++) {
      const at = r * block.columns + c;
      if (block.known[at] !== 1) return null;
      sum += block.heights[at] as number;
    }
  }
  return sum / (times * times);
}
