/**
 * A grid of cells over a rectangle, first row northernmost; the middle of cell (column, row) lies half a cell in.
 *
 * @param {{ west: number, south: number, width: number, height: number, cell: number }} area
 */
export function gridOver({ west, south, width, height, cell }) {
  return { columns: Math.round(width / cell), rows: Math.round(height / cell), cell, west, north: south + height };
}

/**
 * Fills a grid from a function of place.
 *
 * @param {ReturnType<typeof gridOver>} grid
 * @param {(x: number, y: number) => number} heightAt
 */
export function filled(grid, heightAt) {
  const heights = new Float64Array(grid.columns * grid.rows);
  for (let row = 0; row < grid.rows; row++) {
    const y = grid.north - (row + 0.5) * grid.cell;
    for (let column = 0; column < grid.columns; column++) {
      heights[row * grid.columns + column] = heightAt(grid.west + (column + 0.5) * grid.cell, y);
    }
  }
  return heights;
}

/** Weights of the cubic B-spline at a share between two samples: smooth to the second derivative, never overshooting. */
function splineWeights(t) {
  const s = 1 - t;
  return [(s * s * s) / 6, (4 - 6 * t * t + 3 * t * t * t) / 6, (4 - 6 * s * s + 3 * s * s * s) / 6, (t * t * t) / 6];
}

/**
 * Reads a grid smoothly at a place.
 *
 * @param {ReturnType<typeof gridOver>} grid
 * @param {Float64Array | Float32Array} values
 * @param {number} x
 * @param {number} y
 */
export function smoothAt(grid, values, x, y) {
  const column = (x - grid.west) / grid.cell - 0.5;
  const row = (grid.north - y) / grid.cell - 0.5;
  const c = Math.floor(column);
  const r = Math.floor(row);
  const across = splineWeights(column - c);
  const down = splineWeights(row - r);
  let sum = 0;
  for (let j = 0; j < 4; j++) {
    const line = Math.min(grid.rows - 1, Math.max(0, r - 1 + j)) * grid.columns;
    for (let i = 0; i < 4; i++) {
      sum += down[j] * across[i] * values[line + Math.min(grid.columns - 1, Math.max(0, c - 1 + i))];
    }
  }
  return sum;
}
