import { hash } from './random.mjs';

/** Sixteen directions of slope, so that no direction of the lattice stands out. */
const DIRECTIONS = Array.from({ length: 16 }, (_, k) => {
  const angle = ((k + 0.5) * Math.PI) / 8;
  return [Math.cos(angle), Math.sin(angle)];
});

/** Makes the noise of unit wavelength run from about −1 to 1. */
const GAIN = 1.5;

const fade = (t) => t * t * t * (t * (t * 6 - 15) + 10);

function corner(i, j, dx, dy, seed) {
  const direction = DIRECTIONS[hash(i, j, seed) & 15];
  return direction[0] * dx + direction[1] * dy;
}

/**
 * Gradient noise with a wavelength of 1, smooth to the second derivative, about −1 to 1.
 *
 * @param {number} x
 * @param {number} y
 * @param {number} seed
 */
export function noise(x, y, seed) {
  const i = Math.floor(x);
  const j = Math.floor(y);
  const dx = x - i;
  const dy = y - j;
  const u = fade(dx);
  const v = fade(dy);
  const south = corner(i, j, dx, dy, seed) * (1 - u) + corner(i + 1, j, dx - 1, dy, seed) * u;
  const north = corner(i, j + 1, dx, dy - 1, seed) * (1 - u) + corner(i + 1, j + 1, dx - 1, dy - 1, seed) * u;
  return GAIN * (south * (1 - v) + north * v);
}

/**
 * Several octaves of noise: each half as long as the one before and `roughness` times as high.
 *
 * @param {number} x
 * @param {number} y
 * @param {{ wavelength: number, octaves: number, roughness: number, seed: number }} kind
 */
export function layeredNoise(x, y, { wavelength, octaves, roughness, seed }) {
  let sum = 0;
  let height = 1;
  let scale = 1 / wavelength;
  for (let k = 0; k < octaves; k++) {
    // The turn and the shift keep the lattices of the octaves from lining up.
    const turned = k % 2 === 0 ? [x, y] : [0.8 * x - 0.6 * y, 0.6 * x + 0.8 * y];
    sum += height * noise(turned[0] * scale + 17.3 * k, turned[1] * scale - 9.1 * k, seed + k);
    height *= roughness;
    scale *= 2;
  }
  return sum;
}
