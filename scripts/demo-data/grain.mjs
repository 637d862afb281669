import { noise } from './noise.mjs';
import { chanceAt, SEED } from './random.mjs';

/** Brightness of single tufts and clods, as a factor about 1. */
export function grain(x, y, cell) {
  const tufts = 0.055 * noise(x / 2.1, y / 2.1, SEED + 300) + 0.045 * noise(x / 5.3, y / 5.3, SEED + 301);
  const speck = 0.045 * (chanceAt(Math.round(x / cell), Math.round(y / cell), SEED + 302) - 0.5);
  return 1 + tufts + speck;
}
