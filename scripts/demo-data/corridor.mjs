import { fromSegment } from './curve.mjs';

/**
 * Distance and station of every cell within `reach` of a curve, on a grid of `columns` × `rows` cells of size `cell`
 * whose first row is the northernmost; farther cells keep an infinite distance.
 *
 * @param {ReturnType<typeof import('./curve.mjs').smoothCurve>} curve
 * @param {number} reach
 * @param {{ columns: number, rows: number, cell: number, west: number, north: number }} grid
 */
export function corridor(curve, reach, grid) {
  const distance = new Float32Array(grid.columns * grid.rows).fill(Infinity);
  const station = new Float32Array(distance.length);
  for (let k = 0; k < curve.x.length - 1; k++) stamp(curve, k, reach, grid, distance, station);
  return { distance, station };
}

function stamp(curve, k, reach, grid, distance, station) {
  const columnOf = (x) => (x - grid.west) / grid.cell;
  const rowOf = (y) => (grid.north - y) / grid.cell;
  const left = Math.max(0, Math.floor(columnOf(Math.min(curve.x[k], curve.x[k + 1]) - reach)));
  const right = Math.min(grid.columns - 1, Math.ceil(columnOf(Math.max(curve.x[k], curve.x[k + 1]) + reach)));
  const top = Math.max(0, Math.floor(rowOf(Math.max(curve.y[k], curve.y[k + 1]) + reach)));
  const bottom = Math.min(grid.rows - 1, Math.ceil(rowOf(Math.min(curve.y[k], curve.y[k + 1]) - reach)));
  for (let row = top; row <= bottom; row++) {
    for (let column = left; column <= right; column++) {
      const x = grid.west + (column + 0.5) * grid.cell;
      const y = grid.north - (row + 0.5) * grid.cell;
      const seen = fromSegment(curve, k, x, y);
      const cell = row * grid.columns + column;
      if (seen.distance <= reach && seen.distance < distance[cell]) {
        distance[cell] = seen.distance;
        station[cell] = seen.station;
      }
    }
  }
}
