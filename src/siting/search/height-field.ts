import type { CellOnGround } from '../../terrain/grid/placed-grid.ts';
import type { Metres } from '../../units/quantity.ts';

/** Heights at the middles of cells, row by row, and what a step of one cell is on the ground. */
export interface HeightField {
  readonly columns: number;
  readonly rows: number;
  readonly heights: Float64Array | Float32Array;
  readonly known: Uint8Array;
  readonly cell: CellOnGround;
}

/** A place in a field, counted from the middle of its first cell. */
export interface FieldPlace {
  readonly column: number;
  readonly row: number;
}

/** Level distance of a step of so many columns and rows, m. */
export function levelDistance({ cell }: HeightField, columns: number, rows: number): Metres {
  return Math.hypot(
    columns * cell.eastPerColumn + rows * cell.eastPerRow,
    columns * cell.northPerColumn + rows * cell.northPerRow,
  );
}

/**
 * Bilinear height at a place, NaN where one of the cells around it has none or it lies outside the middles.
 *
 * NaN never leaves the folder: whoever asks turns it into a leg that cannot be laid.
 */
export function heightAt(field: HeightField, column: number, row: number): Metres {
  const { columns, rows, heights, known } = field;
  if (!(column >= 0 && row >= 0 && column <= columns - 1 && row <= rows - 1)) return Number.NaN;
  const c = Math.floor(column);
  const r = Math.floor(row);
  const t = column - c;
  const s = row - r;
  const at = r * columns + c;
  const right = t > 0 ? 1 : 0;
  const down = s > 0 ? columns : 0;
  if (!(known[at] && known[at + right] && known[at + down] && known[at + right + down])) return Number.NaN;
  const top = (heights[at] as number) * (1 - t) + (heights[at + right] as number) * t;
  const bottom = (heights[at + down] as number) * (1 - t) + (heights[at + down + right] as number) * t;
  return top * (1 - s) + bottom * s;
}
