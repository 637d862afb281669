import { valueAt } from '../../units/value-at.ts';

/**
 * Points that fill the unit cube more evenly than chance: Sobol's sequence with the direction numbers of S. Joe and
 * F. Y. Kuo, Constructing Sobol sequences with better two-dimensional projections, SIAM J. Sci. Comput. 30, 2008
 * (from memory; each coordinate's stratification is tested), shifted by a seeded digital shift.
 */

/** Degree, coefficients and initial numbers of the primitive polynomials of coordinates 2, 3, 4 … */
const POLYNOMIALS: readonly (readonly [degree: number, coefficients: number, ...initial: number[]])[] = [
  [1, 0, 1],
  [2, 1, 1, 3],
  [3, 1, 1, 3, 1],
  [3, 2, 1, 1, 1],
  [4, 1, 1, 1, 3, 3],
  [4, 4, 1, 3, 5, 13],
  [5, 2, 1, 1, 5, 5, 17],
  [5, 4, 1, 1, 5, 5, 5],
  [5, 7, 1, 1, 7, 11, 19],
  [5, 11, 1, 1, 5, 1, 1],
  [5, 13, 1, 1, 1, 3, 11],
  [5, 14, 1, 3, 5, 5, 31],
  [6, 1, 1, 3, 3, 9, 7, 49],
  [6, 13, 1, 1, 1, 15, 21, 21],
  [6, 16, 1, 3, 1, 13, 27, 49],
  [6, 19, 1, 1, 1, 15, 7, 5],
  [6, 22, 1, 3, 1, 15, 13, 25],
  [6, 25, 1, 1, 5, 5, 19, 61],
  [7, 1, 1, 3, 7, 11, 23, 15, 103],
  [7, 4, 1, 3, 7, 13, 13, 15, 69],
];

/** How many coordinates the sequence has; further ones must be filled in another way. */
export const SOBOL_COORDINATES = POLYNOMIALS.length + 1;

const BITS = 32;
const SCALE = 2 ** -32;

/** Direction numbers of one coordinate, as 32-bit integers. */
function directions(coordinate: number): Uint32Array {
  const v = new Uint32Array(BITS);
  const polynomial = POLYNOMIALS[coordinate - 1];
  if (polynomial === undefined) return v.map((_, i) => (1 << (BITS - 1 - i)) >>> 0);
  const [degree, coefficients, ...initial] = polynomial;
  for (let i = 0; i < BITS; i++) {
    if (i < degree) {
      v[i] = valueAt(initial, i) << (BITS - 1 - i);
      continue;
    }
    const back = valueAt(v, i - degree);
    let next = back ^ (back >>> degree);
    for (let k = 1; k < degree; k++) {
      if ((coefficients >>> (degree - 1 - k)) & 1) next ^= valueAt(v, i - k);
    }
    v[i] = next;
  }
  return v;
}

/** Small seeded generator of 32-bit numbers: a counter put through a mixing function of shifts and products. Common practice, no source. */
export function seededBits(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return (t ^ (t >>> 14)) >>> 0;
  };
}

/** One coordinate of `count` points, each strictly between 0 and 1. Coordinates past the sequence's last are shuffled strata. */
export function evenCoordinate(coordinate: number, count: number, bits: () => number): Float64Array {
  return coordinate < SOBOL_COORDINATES ? sobolCoordinate(coordinate, count, bits()) : shuffledStrata(count, bits);
}

function sobolCoordinate(coordinate: number, count: number, shift: number): Float64Array {
  const v = directions(coordinate);
  const points = new Float64Array(count);
  let x = 0;
  for (let i = 0; i < count; i++) {
    points[i] = (((x ^ shift) >>> 0) + 0.5) * SCALE;
    x ^= valueAt(v, trailingOnes(i));
  }
  return points;
}

/** Position of the lowest zero bit. */
function trailingOnes(i: number): number {
  return 31 - Math.clz32(~i & (i + 1));
}

function shuffledStrata(count: number, bits: () => number): Float64Array {
  const points = Float64Array.from({ length: count }, (_, i) => (i + 0.5) / count);
  for (let i = count - 1; i > 0; i--) {
    const j = bits() % (i + 1);
    [points[i], points[j]] = [valueAt(points, j), valueAt(points, i)];
  }
  return points;
}
