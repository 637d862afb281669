/** The seed of the whole valley. Another number is another valley. */
export const SEED = 7411;

/**
 * A hash of two whole numbers and a seed, spread over 0 to 2³² − 1.
 *
 * @param {number} i
 * @param {number} j
 * @param {number} seed
 */
export function hash(i, j, seed) {
  let h = Math.imul(i, 0x27d4eb2f) ^ Math.imul(j, 0x165667b1) ^ Math.imul(seed, 0x3c6ef372);
  h = Math.imul(h ^ (h >>> 15), 0x2c1b3c6d);
  h = Math.imul(h ^ (h >>> 12), 0x297a2d39);
  return (h ^ (h >>> 15)) >>> 0;
}

/**
 * A number between 0 and 1 that belongs to a place of the lattice.
 *
 * @param {number} i
 * @param {number} j
 * @param {number} seed
 */
export function chanceAt(i, j, seed) {
  return hash(i, j, seed) / 4294967296;
}
