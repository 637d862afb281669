import { noise } from './noise.mjs';
import { chanceAt, SEED } from './random.mjs';

/** Brightness of single tufts and clods, as a factor about 1. */
export function grain(x, y, cell) {
  const tufts = 0.035 * noise(x / 2.3, y / 2.3, SEED + 300) + 0.03 * noise(x / 6.1, y / 6.1, SEED + 301);
  const speck = 0.035 * (chanceAt(Math.round(x / cell), Math.round(y / cell), SEED + 302) - 0.5);
  return 1 + tufts + speck;
}
