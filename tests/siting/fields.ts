import type { HeightField } from '../../src/siting/search/height-field.ts';

/** A field of cells of a metre, rows running south; a height of null is a void. */
export function fieldOf(
  columns: number,
  rows: number,
  height: (column: number, row: number) => number | null,
): HeightField {
  const heights = new Float64Array(columns * rows);
  const known = new Uint8Array(columns * rows);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const z = height(column, row);
      heights[row * columns + column] = z ?? 0;
      known[row * columns + column] = z === null ? 0 : 1;
    }
  }
  const cell = { eastPerColumn: 1, northPerColumn: 0, eastPerRow: 0, northPerRow: -1 };
  return { columns, rows, heights, known, cell };
}

/** Level length of a line through places of a field of metre cells. */
export function levelLength(places: readonly { readonly column: number; readonly row: number }[]): number {
  return places.reduce((sum, place, k) => {
    const before = places[k - 1];
    return before ? sum + Math.hypot(place.column - before.column, place.row - before.row) : sum;
  }, 0);
}
