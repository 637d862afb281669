import { eachNeighbour, waterPassing } from './water-paths.mjs';

/** How often the rain falls, how fast it cuts, and how fast the soil creeps. Chosen by eye. */
const RAINS = 30;
const CUT = 0.005;
const CREEP = 0.06;

/** A rain never takes more of the step down to the lowest neighbour than this. */
const MOST_OF_STEP = 0.4;

/**
 * Lets rain and creep work on a design: each round cuts every cell towards its lowest neighbour, the more the more water
 * passes (with its square root), then smooths the soil.
 *
 * @param {{ columns: number, rows: number }} grid
 * @param {Float64Array} design
 * @param {Uint8Array} outlet 1 where the level stays as designed and water leaves
 */
export function weathered(grid, design, outlet) {
  let heights = Float64Array.from(design);
  for (let rain = 0; rain < RAINS; rain++) heights = crept(grid, cut(grid, heights, outlet), outlet);
  return heights;
}

function cut(grid, heights, outlet) {
  const { level, water } = waterPassing(grid, heights, outlet);
  const result = Float64Array.from(heights);
  for (let cell = 0; cell < heights.length; cell++) {
    if (outlet[cell] || level[cell] > heights[cell]) continue;
    let step = 0;
    eachNeighbour(grid, cell, (next, distance) => {
      step = Math.max(step, (heights[cell] - heights[next]) / distance);
    });
    result[cell] -= step * Math.min(MOST_OF_STEP, CUT * Math.sqrt(water[cell]));
  }
  return result;
}

function crept({ columns, rows }, heights, outlet) {
  const result = Float64Array.from(heights);
  for (let row = 1; row < rows - 1; row++) {
    for (let cell = row * columns + 1; cell < (row + 1) * columns - 1; cell++) {
      if (outlet[cell]) continue;
      const around = heights[cell - 1] + heights[cell + 1] + heights[cell - columns] + heights[cell + columns];
      result[cell] += CREEP * (around - 4 * heights[cell]);
    }
  }
  return result;
}
