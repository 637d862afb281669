import type { FieldPlace, HeightField } from './height-field.ts';

/** A field of means of `times` × `times` cells; a square in which a cell has no height has none. */
export function coarserField(field: HeightField, times: number): HeightField {
  const columns = Math.max(1, Math.floor(field.columns / times));
  const rows = Math.max(1, Math.floor(field.rows / times));
  const heights = new Float64Array(columns * rows);
  const known = new Uint8Array(columns * rows);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const mean = meanOf(field, { column: column * times, row: row * times }, times);
      if (mean === null) continue;
      heights[row * columns + column] = mean;
      known[row * columns + column] = 1;
    }
  }
  const { eastPerColumn, northPerColumn, eastPerRow, northPerRow } = field.cell;
  const cell = {
    eastPerColumn: eastPerColumn * times,
    northPerColumn: northPerColumn * times,
    eastPerRow: eastPerRow * times,
    northPerRow: northPerRow * times,
  };
  return { columns, rows, heights, known, cell };
}

function meanOf({ columns, heights, known }: HeightField, from: FieldPlace, times: number): number | null {
  let sum = 0;
  for (let r = from.row; r < from.row + times; r++) {
    for (let c = from.column; c < from.column + times; c++) {
      const at = r * columns + c;
      if (known[at] !== 1) return null;
      sum += heights[at] as number;
    }
  }
  return sum / (times * times);
}

/** A place of a field in a field of means; those in its outermost half cells are drawn in. */
export function placeInCoarser({ column, row }: FieldPlace, coarse: HeightField, times: number): FieldPlace {
  const within = (at: number, most: number): number => Math.min(Math.max((at - (times - 1) / 2) / times, 0), most - 1);
  return { column: within(column, coarse.columns), row: within(row, coarse.rows) };
}

/** The place of a field at a place of its means. */
export function placeInFiner({ column, row }: FieldPlace, fine: HeightField, times: number): FieldPlace {
  const within = (at: number, most: number): number => Math.min(at * times + (times - 1) / 2, most - 1);
  return { column: within(column, fine.columns), row: within(row, fine.rows) };
}
