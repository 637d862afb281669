import { around, lay } from './canvas.mjs';
import { SUN } from './light.mjs';
import { noise } from './noise.mjs';
import { SEED } from './random.mjs';
import { mix, ramp } from './shaping.mjs';

/** Light left in a shadow. */
const SHADE = 0.5;

/** Where the top of something one metre high throws its shadow, m east and north. */
const THROW = {
  east: -Math.sin(SUN.azimuth) / Math.tan(SUN.altitude),
  north: -Math.cos(SUN.azimuth) / Math.tan(SUN.altitude),
};

const DARK = [50, 66, 34];
const PALE = [92, 108, 54];

/**
 * Darkens the ground where a plant keeps the sun off: a soft streak from its foot to the shadow of its top.
 *
 * @param {ReturnType<typeof import('./canvas.mjs').canvas>} picture
 * @param {{ x: number, y: number, radius: number, height: number }} plant
 */
export function castShadow(picture, { x, y, radius, height }) {
  const [ex, ey] = [THROW.east * height, THROW.north * height];
  const length = Math.hypot(ex, ey);
  around(picture, { x: x + ex / 2, y: y + ey / 2, reach: radius + length / 2 + 1 }, (cell, dx, dy) => {
    const [px, py] = [dx + ex / 2, dy + ey / 2];
    const share = Math.min(1, Math.max(0, (px * ex + py * ey) / (length * length)));
    const away = Math.hypot(px - share * ex, py - share * ey) / (radius * (1 - 0.35 * share));
    picture.light[cell] = Math.min(picture.light[cell], mix(SHADE, 1, ramp(0.7, 1.15, away)));
  });
}

/**
 * Draws a crown: ragged outline, lit on the sun's side, leafy in between.
 *
 * @param {ReturnType<typeof import('./canvas.mjs').canvas>} picture
 * @param {{ x: number, y: number, radius: number, height: number, tone: number }} plant
 */
export function drawCrown(picture, { x, y, radius, tone }) {
  around(picture, { x, y, reach: radius * 1.3 }, (cell, dx, dy) => {
    const leaf = noise((x + dx) / 1.7, (y + dy) / 1.7, SEED + 360);
    const out = Math.hypot(dx, dy) / (radius * (1 + 0.22 * leaf));
    if (out > 1.1) return;
    const towardsSun = (dx * Math.sin(SUN.azimuth) + dy * Math.cos(SUN.azimuth)) / radius;
    const bright = Math.min(1, Math.max(0, 0.36 + 0.4 * towardsSun + 0.22 * leaf));
    const tint = 0.86 + 0.3 * tone;
    const colour = DARK.map((dark, k) => tint * mix(dark, PALE[k], bright));
    const cover = ramp(1.1, 0.9, out);
    lay(picture, cell, colour, cover);
    picture.light[cell] = mix(picture.light[cell], 1, cover);
  });
}
