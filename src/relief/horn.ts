import type { Heights } from './heights.ts';

/** Rise of the ground across the cells of a block, m per cell: `across` towards higher columns, `down` towards higher rows. */
export interface Gradients {
  readonly across: Float32Array;
  readonly down: Float32Array;
}

/** Sum of the weights 1, 2, 1 times the two cells between the outer columns. */
const HORN_WEIGHT = 8;

/**
 * Gradient at every cell of a block from its eight neighbours, weighted 1, 2, 1.
 *
 * across = ((c + 2f + i) − (a + 2d + g)) / 8, down = ((g + 2h + i) − (a + 2b + c)) / 8, with the neighbours a b c / d · f /
 * g h i in rows from the top. A neighbour that is unknown or beyond the block counts as level with the middle.
 * Source: Horn, Hill Shading and the Reflectance Map, Proceedings of the IEEE 69(1), 1981, p. 18.
 */
export function hornGradients(block: Heights): Gradients {
  const size = block.columns * block.rows;
  const out: Gradients = { across: new Float32Array(size), down: new Float32Array(size) };
  const z = bordered(block);
  const stride = block.columns + 2;
  for (let row = 0; row < block.rows; row += 1) {
    for (let column = 0; column < block.columns; column += 1) {
      const at = row * block.columns + column;
      if (block.known[at] !== 0) writeGradient(z, (row + 1) * stride + column + 1, stride, out, at);
    }
  }
  return out;
}

function writeGradient(z: Float32Array, m: number, stride: number, out: Gradients, at: number): void {
  const a = z[m - stride - 1] ?? 0;
  const b = z[m - stride] ?? 0;
  const c = z[m - stride + 1] ?? 0;
  const d = z[m - 1] ?? 0;
  const f = z[m + 1] ?? 0;
  const g = z[m + stride - 1] ?? 0;
  const h = z[m + stride] ?? 0;
  const i = z[m + stride + 1] ?? 0;
  const across = (c + 2 * f + i - (a + 2 * d + g)) / HORN_WEIGHT;
  const down = (g + 2 * h + i - (a + 2 * b + c)) / HORN_WEIGHT;
  // An unknown neighbour is NaN and shows in one of the sums.
  if (Number.isNaN(across + down)) writeBesideVoid([a, b, c, d, f, g, h, i], z[m] ?? 0, out, at);
  else {
    out.across[at] = across;
    out.down[at] = down;
  }
}

function writeBesideVoid(neighbours: readonly number[], middle: number, out: Gradients, at: number): void {
  const [a = 0, b = 0, c = 0, d = 0, f = 0, g = 0, h = 0, i = 0] = neighbours.map((height) =>
    Number.isNaN(height) ? middle : height,
  );
  out.across[at] = (c + 2 * f + i - (a + 2 * d + g)) / HORN_WEIGHT;
  out.down[at] = (g + 2 * h + i - (a + 2 * b + c)) / HORN_WEIGHT;
}

/** A copy with a border of one cell; NaN inside this file only, for unknown cells and the border. */
function bordered(block: Heights): Float32Array {
  const stride = block.columns + 2;
  const z = new Float32Array(stride * (block.rows + 2)).fill(Number.NaN);
  for (let row = 0; row < block.rows; row += 1) {
    for (let column = 0; column < block.columns; column += 1) {
      const at = row * block.columns + column;
      if (block.known[at] !== 0) z[(row + 1) * stride + column + 1] = block.heights[at] ?? 0;
    }
  }
  return z;
}
