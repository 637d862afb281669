import type { CellWindow } from '../grid/grid.ts';
import type { CellTrack, WindowRun } from './bilinear.ts';

export interface WindowLimits {
  /** Cells kept around every sample, beyond those it lies between. */
  readonly margin: number;
  /** A run of samples ends before its window passes this; a window of one sample may. */
  readonly mostCells: number;
}

/** Small enough that a long diagonal line does not read the whole rectangle around it. */
export const ROUTE_WINDOW_CELLS = 512 * 512;

interface Size {
  readonly columns: number;
  readonly rows: number;
}

/** Windows to read for a line of samples, in order: one for a short line, several for a long diagonal one. */
export function windowsAlong(track: CellTrack, grid: Size, limits: WindowLimits, wanted: Wanted): WindowRun[] {
  const runs: WindowRun[] = [];
  let box: Box | null = null;
  let first = 0;
  let last = 0;
  const close = (): void => {
    if (box) runs.push({ first, last, window: windowOf(box) });
  };
  for (let i = 0; i < track.column.length; i++) {
    const own = wanted(i) ? boxOf(track.column[i] as number, track.row[i] as number, grid, limits.margin) : null;
    if (!own) continue;
    const both: Box | null = box && unite(box, own);
    if (both && areaOf(both) <= limits.mostCells) box = both;
    else {
      close();
      box = own;
      first = i;
    }
    last = i;
  }
  close();
  return runs;
}

/** Whether a sample still needs a height. */
export type Wanted = (sample: number) => boolean;

/** Columns and rows, first and last, both included. */
interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

function boxOf(column: number, row: number, grid: Size, margin: number): Box | null {
  if (!(column >= 0 && column <= grid.columns && row >= 0 && row <= grid.rows)) return null;
  const left = Math.floor(column - 0.5);
  const top = Math.floor(row - 0.5);
  const inColumns = (c: number): number => Math.min(Math.max(c, 0), grid.columns - 1);
  const inRows = (r: number): number => Math.min(Math.max(r, 0), grid.rows - 1);
  return {
    left: inColumns(left - margin),
    right: inColumns(left + 1 + margin),
    top: inRows(top - margin),
    bottom: inRows(top + 1 + margin),
  };
}

const unite = (a: Box, b: Box): Box => ({
  left: Math.min(a.left, b.left),
  right: Math.max(a.right, b.right),
  top: Math.min(a.top, b.top),
  bottom: Math.max(a.bottom, b.bottom),
});

const areaOf = (b: Box): number => (b.right - b.left + 1) * (b.bottom - b.top + 1);

const windowOf = (b: Box): CellWindow => ({
  column: b.left,
  row: b.top,
  columns: b.right - b.left + 1,
  rows: b.bottom - b.top + 1,
});
