import { FINE } from './ground.mjs';
import { mix } from './shaping.mjs';

/** A low sun in the west: the slopes then read as they do on a shaded map. */
export const SUN = { azimuth: (283 * Math.PI) / 180, altitude: (36 * Math.PI) / 180 };

/** How strongly the slopes show: 1 would be bare clay. */
const STRENGTH = 0.55;

/**
 * Gradient of the ground at cell (column, row) by central differences over two cells, m/m east and north.
 *
 * @param {Float32Array} heights
 */
export function gradientAt(heights, column, row) {
  const left = Math.max(0, column - 1);
  const right = Math.min(FINE.columns - 1, column + 1);
  const top = Math.max(0, row - 1);
  const bottom = Math.min(FINE.rows - 1, row + 1);
  const line = row * FINE.columns;
  return {
    east: (heights[line + right] - heights[line + left]) / (right - left),
    north: (heights[top * FINE.columns + column] - heights[bottom * FINE.columns + column]) / (bottom - top),
  };
}

/**
 * Sunlight on a slope compared with level ground, softened by light from the sky.
 *
 * @param {{ east: number, north: number }} gradient
 */
export function sunlight({ east, north }) {
  const towardsEast = Math.cos(SUN.altitude) * Math.sin(SUN.azimuth);
  const towardsNorth = Math.cos(SUN.altitude) * Math.cos(SUN.azimuth);
  const up = Math.sin(SUN.altitude);
  const facing = (up - east * towardsEast - north * towardsNorth) / Math.hypot(1, east, north);
  return mix(1, Math.max(0, facing) / up, STRENGTH);
}
