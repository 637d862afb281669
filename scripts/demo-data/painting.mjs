import { canvas, lay } from './canvas.mjs';
import { nearestOn } from './curve.mjs';
import { castShadow, drawCrown } from './draw-plants.mjs';
import { drawFences, drawPaths, drawRoofs, drawTrack, drawWater, drawYard } from './draw-works.mjs';
import { YARD } from './farm.mjs';
import { GULLY, STREAM } from './features.mjs';
import { grain } from './grain.mjs';
import { smoothAt } from './grid.mjs';
import { FINE } from './ground.mjs';
import { TRACK } from './landmarks.mjs';
import { layOfLand } from './lay-of-land.mjs';
import { gradientAt, sunlight } from './light.mjs';
import { plants } from './plants.mjs';
import { clamp } from './shaping.mjs';
import { fieldAt, turfColour } from './turf-colours.mjs';

/** How much darker a metre of hollow is, and brighter a metre of rise. */
const HOLLOW_SHADE = 0.03;

function paintTurf(picture, heights) {
  const land = layOfLand(heights);
  for (let row = 0; row < FINE.rows; row++) {
    for (let column = 0; column < FINE.columns; column++) paintMetre(picture, heights, land, column, row);
  }
}

/** Paints the four picture cells of one cell of ground. */
function paintMetre(picture, heights, land, column, row) {
  const [x, y] = [column + 0.5, FINE.north - row - 0.5];
  const gradient = gradientAt(heights, column, row);
  const place = {
    height: heights[row * FINE.columns + column],
    slope: Math.hypot(gradient.east, gradient.north),
    wetness: smoothAt(land.grid, land.wetness, x, y),
    standing: smoothAt(land.grid, land.standing, x, y),
    stream: nearestOn(STREAM.curve, x, y).distance,
    field: fieldAt(x, y),
  };
  const colour = turfColour(x, y, place);
  const light = sunlight(gradient) * (1 + HOLLOW_SHADE * clamp(place.standing, -6, 3));
  for (const [dx, dy] of [
    [0, 0],
    [1, 0],
    [0, 1],
    [1, 1],
  ]) {
    const cell = (2 * row + dy) * picture.columns + 2 * column + dx;
    const bright = light * grain(x + 0.5 * dx - 0.25, y + 0.25 - 0.5 * dy, picture.cell);
    lay(picture, cell, [colour[0] * bright, colour[1] * bright, colour[2] * bright], 1);
  }
}

function keptOpen(x, y) {
  if (nearestOn(TRACK.curve, x, y).distance < 5) return true;
  return Math.hypot(x - YARD.x, y - YARD.y) < YARD.radius + 4 || fieldAt(x, y)?.cut !== undefined;
}

/**
 * The valley as seen from the air.
 *
 * @param {Float32Array} heights
 */
export function valleyPicture(heights) {
  const picture = canvas();
  paintTurf(picture, heights);
  drawPaths(picture);
  drawFences(picture);
  drawWater(picture);
  drawYard(picture);
  drawTrack(picture);
  const growing = plants({
    stream: (x, y) => nearestOn(STREAM.curve, x, y).distance,
    gully: (x, y) => nearestOn(GULLY.curve, x, y).distance,
    open: keptOpen,
  });
  for (const plant of growing) castShadow(picture, plant);
  drawRoofs(picture);
  for (const plant of growing) drawCrown(picture, plant);
  return picture;
}
