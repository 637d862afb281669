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
  for (let row = 0; row < block.rows; row += 1) writeRow(z, block, row, out);
  return out;
}

/** One row of gradients: each column of three cells is summed once and handed on to the left. */
function writeRow(z: Float32Array, { columns, known }: Heights, row: number, { across, down }: Gradients): void {
  const stride = columns + 2;
  let above = row * stride;
  let [leftSum, leftFall] = [sum(z, above, stride), fall(z, above, stride)];
  let [middleSum, middleFall] = [sum(z, above + 1, stride), fall(z, above + 1, stride)];
  for (let at = row * columns; at < (row + 1) * columns; at += 1) {
    const rightSum = sum(z, above + 2, stride);
    const rightFall = fall(z, above + 2, stride);
    const eastward = (rightSum - leftSum) / HORN_WEIGHT;
    const downward = (leftFall + 2 * middleFall + rightFall) / HORN_WEIGHT;
    leftSum = middleSum;
    leftFall = middleFall;
    middleSum = rightSum;
    middleFall = rightFall;
    above += 1;
    if (known[at] === 0) continue;
    across[at] = eastward;
    down[at] = downward;
    // An unknown neighbour is NaN and shows in one of the two.
    if (Number.isNaN(eastward + downward)) writeBesideVoid(z, above, stride, { across, down }, at);
  }
}

function sum(z: Float32Array, above: number, stride: number): number {
  return (z[above] ?? 0) + 2 * (z[above + stride] ?? 0) + (z[above + 2 * stride] ?? 0);
}

function fall(z: Float32Array, above: number, stride: number): number {
  return (z[above + 2 * stride] ?? 0) - (z[above] ?? 0);
}

function writeBesideVoid(z: Float32Array, above: number, stride: number, out: Gradients, at: number): void {
  const middle = above + stride;
  const height = z[middle] ?? 0;
  const level = (from: number) => {
    const neighbour = z[middle + from] ?? Number.NaN;
    return Number.isNaN(neighbour) ? height : neighbour;
  };
  const [a, b, c] = [level(-stride - 1), level(-stride), level(-stride + 1)];
  const [g, h, i] = [level(stride - 1), level(stride), level(stride + 1)];
  out.across[at] = (c + 2 * level(1) + i - (a + 2 * level(-1) + g)) / HORN_WEIGHT;
  out.down[at] = (g + 2 * h + i - (a + 2 * b + c)) / HORN_WEIGHT;
}

/** A copy with a border of one cell; NaN inside this file only, for unknown cells and the border. */
function bordered(block: Heights): Float32Array {
  const stride = block.columns + 2;
  const z = new Float32Array(stride * (block.rows + 2)).fill(Number.NaN);
  for (let row = 0; row < block.rows; row += 1) {
    const from = row * block.columns;
    const to = (row + 1) * stride + 1;
    z.set(block.heights.subarray(from, from + block.columns), to);
    for (let column = 0; column < block.columns; column += 1) {
      if (block.known[from + column] === 0) z[to + column] = Number.NaN;
    }
  }
  return z;
}
