import { SITE } from './site.mjs';

/** Size of a picture cell, m. */
export const PICTURE_CELL = 0.5;

const COLUMNS = SITE.width / PICTURE_CELL;
const ROWS = SITE.height / PICTURE_CELL;

/** A picture being painted: colours 0 to 255 and, apart from them, how much light falls on each cell. */
export function canvas() {
  return {
    columns: COLUMNS,
    rows: ROWS,
    cell: PICTURE_CELL,
    west: 0,
    north: SITE.height,
    red: new Float32Array(COLUMNS * ROWS),
    green: new Float32Array(COLUMNS * ROWS),
    blue: new Float32Array(COLUMNS * ROWS),
    light: new Float32Array(COLUMNS * ROWS).fill(1),
  };
}

/**
 * Lays a colour over a cell; `cover` 1 hides what was there.
 *
 * @param {ReturnType<typeof canvas>} picture
 * @param {number} cell
 * @param {readonly number[]} colour
 * @param {number} cover
 */
export function lay(picture, cell, colour, cover) {
  picture.red[cell] += (colour[0] - picture.red[cell]) * cover;
  picture.green[cell] += (colour[1] - picture.green[cell]) * cover;
  picture.blue[cell] += (colour[2] - picture.blue[cell]) * cover;
}

/**
 * Visits the cells within a square around a place.
 *
 * @param {ReturnType<typeof canvas>} picture
 * @param {{ x: number, y: number, reach: number }} square
 * @param {(cell: number, dx: number, dy: number) => void} visit with the offset from the place, m east and north
 */
export function around(picture, { x, y, reach }, visit) {
  const left = Math.max(0, Math.floor((x - reach) / picture.cell));
  const right = Math.min(picture.columns - 1, Math.ceil((x + reach) / picture.cell));
  const top = Math.max(0, Math.floor((picture.north - y - reach) / picture.cell));
  const bottom = Math.min(picture.rows - 1, Math.ceil((picture.north - y + reach) / picture.cell));
  for (let row = top; row <= bottom; row++) {
    for (let column = left; column <= right; column++) {
      const dx = (column + 0.5) * picture.cell - x;
      const dy = picture.north - (row + 0.5) * picture.cell - y;
      visit(row * picture.columns + column, dx, dy);
    }
  }
}
