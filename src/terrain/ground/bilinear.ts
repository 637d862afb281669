import type { CellWindow, HeightBlock } from '../grid/grid.ts';

/** Cell coordinates of samples, side by side, and the stretch of them that is meant. */
export interface CellTrack {
  readonly column: Float64Array;
  readonly row: Float64Array;
}

/** Where sampled heights go; `known` is 1 where there is one. */
export interface SampledHeights {
  readonly height: Float64Array;
  readonly known: Uint8Array;
}

export interface SampleRange {
  readonly first: number;
  readonly last: number;
}

/** Cells whose heights a bilinear sample may use lie half a cell from the corner that cell coordinates count from. */
const HALF_CELL = 0.5;

/**
 * Heights between the middles of cells, for samples that lie in a window of a grid; entries already known are left alone.
 *
 * z = (1−t)(1−s) z₀₀ + t(1−s) z₁₀ + (1−t)s z₀₁ + ts z₁₁; t, s shares of a cell beyond the middle of cell (0, 0).
 * A cell of no weight is no neighbour; where any other neighbour has no height there is none here. Within half a cell of
 * the grid's edge the sample is taken at the nearest middle. Outside the grid there is no height. Source: closed form.
 */
export function sampleBilinear(
  block: HeightBlock,
  grid: { readonly columns: number; readonly rows: number },
  track: CellTrack,
  range: SampleRange,
  out: SampledHeights,
): void {
  const { heights, known, columns: width } = block;
  const { column, row } = track;
  const lastColumn = grid.columns - 1;
  const lastRow = grid.rows - 1;
  for (let i = range.first; i <= range.last; i++) {
    if (out.known[i] === 1) continue;
    const c = column[i] as number;
    const r = row[i] as number;
    if (!(c >= 0 && c <= grid.columns && r >= 0 && r <= grid.rows)) continue;
    const u = Math.min(Math.max(c - HALF_CELL, 0), lastColumn);
    const v = Math.min(Math.max(r - HALF_CELL, 0), lastRow);
    const u0 = Math.floor(u);
    const v0 = Math.floor(v);
    const t = u - u0;
    const s = v - v0;
    const at = (v0 - block.row) * width + (u0 - block.column);
    const right = t > 0 ? 1 : 0;
    const down = s > 0 ? width : 0;
    if (
      (known[at] as number) +
        (known[at + right] as number) +
        (known[at + down] as number) +
        (known[at + down + right] as number) !==
      4
    ) {
      continue;
    }
    const top = (heights[at] as number) * (1 - t) + (heights[at + right] as number) * t;
    const bottom = (heights[at + down] as number) * (1 - t) + (heights[at + down + right] as number) * t;
    out.height[i] = top * (1 - s) + bottom * s;
    out.known[i] = 1;
  }
}

/** A window that must be read for a run of samples. */
export interface WindowRun extends SampleRange {
  readonly window: CellWindow;
}
