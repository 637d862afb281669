import { LowestFirst } from './lowest-first.mjs';

/** Offsets of the eight neighbours and their distances in cells. */
const NEIGHBOURS = [
  [1, 0, 1],
  [-1, 0, 1],
  [0, 1, 1],
  [0, -1, 1],
  [1, 1, Math.SQRT2],
  [1, -1, Math.SQRT2],
  [-1, 1, Math.SQRT2],
  [-1, -1, Math.SQRT2],
];

/** Least rise per cell that lets water out of a filled pit. */
const TRICKLE = 1e-4;

/**
 * The water that passes each cell, in cells drained. Pits are filled from the outlets upwards (the priority flood of
 * Barnes, Lehman and Mulla, 2014); every cell then shares its water among all lower neighbours in proportion to their
 * slope (the multiple flow direction of Freeman, 1991), which leaves no straight lines on even ground.
 *
 * @param {{ columns: number, rows: number }} grid
 * @param {Float64Array} heights
 * @param {Uint8Array} outlet 1 where water leaves
 */
export function waterPassing(grid, heights, outlet) {
  const { level, order } = flood(grid, heights, outlet);
  const water = new Float64Array(heights.length).fill(1);
  for (let k = order.length - 1; k >= 0; k--) if (!outlet[order[k]]) handDown(grid, level, order[k], water);
  return { level, water };
}

function flood(grid, heights, outlet) {
  const level = Float64Array.from(heights);
  const reached = Uint8Array.from(outlet);
  const order = [];
  const heap = new LowestFirst();
  outlet.forEach((isOutlet, cell) => {
    if (isOutlet) heap.push(cell, heights[cell]);
  });
  for (let cell = heap.pop(); cell !== undefined; cell = heap.pop()) {
    order.push(cell);
    eachNeighbour(grid, cell, (next) => {
      if (reached[next]) return;
      reached[next] = 1;
      level[next] = Math.max(heights[next], level[cell] + TRICKLE);
      heap.push(next, level[next]);
    });
  }
  return { level, order };
}

function handDown(grid, level, cell, water) {
  let total = 0;
  eachNeighbour(grid, cell, (next, distance) => {
    total += Math.max(0, level[cell] - level[next]) / distance;
  });
  if (total === 0) return;
  eachNeighbour(grid, cell, (next, distance) => {
    water[next] += (water[cell] * Math.max(0, level[cell] - level[next])) / distance / total;
  });
}

/**
 * @param {{ columns: number, rows: number }} grid
 * @param {number} cell
 * @param {(next: number, distance: number) => void} visit
 */
export function eachNeighbour({ columns, rows }, cell, visit) {
  const column = cell % columns;
  const row = (cell - column) / columns;
  for (const [dx, dy, distance] of NEIGHBOURS) {
    const c = column + dx;
    const r = row + dy;
    if (c >= 0 && c < columns && r >= 0 && r < rows) visit(r * columns + c, distance);
  }
}
