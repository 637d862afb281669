import type { Heights } from './heights.ts';

/** Rise of the ground across the cells of a block, m per cell: `across` towards higher columns, `down` towards higher rows. */
export interface Gradients {
  readonly across: Float32Array;
  readonly down: Float32Array;
}

/** One by the sum of the weights 1, 2, 1 times the two cells between the outer columns. */
const PER_WEIGHT = 1 / 8;

/**
 * Gradient at every cell of a block from its eight neighbours, weighted 1, 2, 1.
 *
 * across = ((c + 2f + i) − (a + 2d + g)) / 8, down = ((g + 2h + i) − (a + 2b + c)) / 8, with the neighbours a b c / d · f /
 * g h i in rows from the top. Source: Horn, Hill Shading and the Reflectance Map, Proceedings of the IEEE 69(1), 1981, p. 18.
 * Where neighbours are unknown or beyond the block, those that are there decide: see `writeBesideVoid`.
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
    const eastward = (rightSum - leftSum) * PER_WEIGHT;
    const downward = (leftFall + 2 * middleFall + rightFall) * PER_WEIGHT;
    leftSum = middleSum;
    leftFall = middleFall;
    middleSum = rightSum;
    middleFall = rightFall;
    above += 1;
    // An unknown neighbour is NaN and shows in one of the two.
    const both = eastward + downward;
    if (!Number.isNaN(both)) {
      if (known[at] === 0) continue;
      across[at] = eastward;
      down[at] = downward;
    } else if (known[at] === 1) writeBesideVoid(z, above, stride, { across, down }, at);
  }
}

function sum(z: Float32Array, above: number, stride: number): number {
  return (z[above] as number) + 2 * (z[above + stride] as number) + (z[above + 2 * stride] as number);
}

function fall(z: Float32Array, above: number, stride: number): number {
  return (z[above + 2 * stride] as number) - (z[above] as number);
}

/** Columns and rows from a cell to its neighbours, with the weight of each. */
const NEIGHBOURS = [-1, 0, 1].flatMap((x) =>
  [-1, 0, 1].filter((y) => x !== 0 || y !== 0).map((y) => ({ x, y, weight: x === 0 || y === 0 ? 2 : 1 })),
);

/**
 * The plane through the middle of a cell that fits the neighbours which are there best, by least squares in Horn's weights;
 * with all eight that is Horn's gradient, and the rim of a slope is as steep as the slope.
 *
 * (across, down) solves Σw·x² across + Σw·x·y down = Σw·x·(z − e), Σw·x·y across + Σw·y² down = Σw·y·(z − e); where the
 * neighbours lie on one line through the middle, the rise is along that line.
 */
function writeBesideVoid(z: Float32Array, above: number, stride: number, out: Gradients, at: number): void {
  const middle = above + stride;
  let [xx, xy, yy, xz, yz] = [0, 0, 0, 0, 0];
  for (const { x, y, weight } of NEIGHBOURS) {
    const rise = (z[middle + x + y * stride] ?? Number.NaN) - (z[middle] ?? 0);
    if (Number.isNaN(rise)) continue;
    xx += weight * x * x;
    xy += weight * x * y;
    yy += weight * y * y;
    xz += weight * x * rise;
    yz += weight * y * rise;
  }
  const area = xx * yy - xy * xy;
  const length = Math.max(1, xx + yy);
  out.across[at] = area > 0 ? (yy * xz - xy * yz) / area : xz / length;
  out.down[at] = area > 0 ? (xx * yz - xy * xz) / area : yz / length;
}

/** A copy with a border of one cell; NaN inside this file only, for unknown cells and the border. */
function bordered(block: Heights): Float32Array {
  const stride = block.columns + 2;
  const z = new Float32Array(stride * (block.rows + 2)).fill(Number.NaN);
  for (let row = 0; row < block.rows; row += 1) {
    const from = row * block.columns;
    const to = (row + 1) * stride + 1;
    z.set(block.heights.subarray(from, from + block.columns), to);
    if (!block.known.subarray(from, from + block.columns).includes(0)) continue;
    for (let column = 0; column < block.columns; column += 1) {
      if (block.known[from + column] === 0) z[to + column] = Number.NaN;
    }
  }
  return z;
}
