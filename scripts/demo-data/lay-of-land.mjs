import { FINE } from './ground.mjs';
import { waterPassing } from './water-paths.mjs';

const BLOCK = 4;
const GRID = {
  columns: FINE.columns / BLOCK,
  rows: FINE.rows / BLOCK,
  cell: BLOCK,
  west: FINE.west,
  north: FINE.north,
};

/** Passes and half width of the running mean that shows hollows and rises, in blocks. */
const PASSES = 2;
const HALF = 5;

function blockMeans(heights) {
  const means = new Float64Array(GRID.columns * GRID.rows);
  for (let row = 0; row < FINE.rows; row++) {
    for (let column = 0; column < FINE.columns; column++) {
      const block = Math.floor(row / BLOCK) * GRID.columns + Math.floor(column / BLOCK);
      means[block] += heights[row * FINE.columns + column] / (BLOCK * BLOCK);
    }
  }
  return means;
}

function blurred(values, { columns, rows }) {
  let result = values;
  for (let pass = 0; pass < PASSES; pass++) {
    for (const [count, step, lines, stride] of [
      [columns, 1, rows, columns],
      [rows, columns, columns, 1],
    ]) {
      const next = new Float64Array(result.length);
      for (let line = 0; line < lines; line++) {
        for (let k = 0; k < count; k++) {
          let sum = 0;
          for (let j = -HALF; j <= HALF; j++) {
            sum += result[line * stride + Math.min(count - 1, Math.max(0, k + j)) * step];
          }
          next[line * stride + k] = sum / (2 * HALF + 1);
        }
      }
      result = next;
    }
  }
  return result;
}

/**
 * What the plants feel of the ground, on 4 m blocks: how much water passes (natural logarithm of the blocks drained) and
 * how far the place stands above its surroundings, m.
 *
 * @param {Float32Array} heights
 */
export function layOfLand(heights) {
  const means = blockMeans(heights);
  const edge = Uint8Array.from(means, (_, cell) => {
    const column = cell % GRID.columns;
    const row = (cell - column) / GRID.columns;
    return column === 0 || row === 0 || column === GRID.columns - 1 || row === GRID.rows - 1 ? 1 : 0;
  });
  const wetness = Float64Array.from(waterPassing(GRID, means, edge).water, Math.log);
  const smooth = blurred(means, GRID);
  const standing = Float64Array.from(means, (height, cell) => height - smooth[cell]);
  return { grid: GRID, wetness, standing };
}
