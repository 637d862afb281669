import { corridor } from './corridor.mjs';
import { TRACK } from './landmarks.mjs';
import { mix, ramp } from './shaping.mjs';

/** Length over which the wheels and the grader even out the track, m, and how far its banks reach. */
const EVENED = 24;
const BANKS = 4.5;

/** Height of the ground below each sample of the track, evened out along it. */
function gradeLine(grid, heights) {
  const { x, y, station } = TRACK.curve;
  const raw = Array.from(x, (_, k) => {
    const column = Math.min(grid.columns - 1, Math.max(0, Math.floor((x[k] - grid.west) / grid.cell)));
    const row = Math.min(grid.rows - 1, Math.max(0, Math.floor((grid.north - y[k]) / grid.cell)));
    return heights[row * grid.columns + column];
  });
  return raw.map((_, k) => {
    const near = raw.filter((__, i) => Math.abs(station[i] - station[k]) <= EVENED / 2);
    return near.reduce((sum, height) => sum + height, 0) / near.length;
  });
}

/**
 * Cuts and fills the farm track into the ground, in place.
 *
 * @param {{ columns: number, rows: number, cell: number, west: number, north: number }} grid
 * @param {Float64Array} heights
 */
export function graded(grid, heights) {
  const { curve, halfWidth } = TRACK;
  const line = gradeLine(grid, heights);
  const seen = corridor(curve, BANKS, grid);
  let k = 0;
  for (let cell = 0; cell < heights.length; cell++) {
    const station = seen.station[cell];
    if (seen.distance[cell] > BANKS) continue;
    while (k > 0 && curve.station[k] > station) k--;
    while (k < curve.station.length - 2 && curve.station[k + 1] < station) k++;
    const share = (station - curve.station[k]) / (curve.station[k + 1] - curve.station[k]);
    const level = mix(line[k], line[k + 1], Math.min(1, Math.max(0, share)));
    heights[cell] = mix(level, heights[cell], ramp(halfWidth, BANKS, seen.distance[cell]));
  }
}
