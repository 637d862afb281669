/**
 * @param {number} value
 * @param {number} low
 * @param {number} high
 */
export function clamp(value, low, high) {
  return Math.min(high, Math.max(low, value));
}

/**
 * 0 below `from`, 1 above `to`, an S between; `from` may be the larger one.
 *
 * @param {number} from
 * @param {number} to
 * @param {number} value
 */
export function ramp(from, to, value) {
  const t = clamp((value - from) / (to - from), 0, 1);
  return t * t * (3 - 2 * t);
}

/**
 * @param {number} a
 * @param {number} b
 * @param {number} share
 */
export function mix(a, b, share) {
  return a + (b - a) * share;
}

/**
 * The lower of two heights, rounded off where they cross by about a quarter of `blend`.
 *
 * @param {number} a
 * @param {number} b
 * @param {number} blend
 */
export function softLower(a, b, blend) {
  const overlap = Math.max(0, blend - Math.abs(a - b)) / blend;
  return Math.min(a, b) - overlap * overlap * blend * 0.25;
}

/**
 * A value along stops [[at, value], …], straight between them, level beyond the ends.
 *
 * @param {readonly (readonly [number, number])[]} stops
 * @param {number} at
 */
export function along(stops, at) {
  if (at <= stops[0][0]) return stops[0][1];
  for (let k = 1; k < stops.length; k++) {
    const [from, low] = stops[k - 1];
    const [to, high] = stops[k];
    if (at <= to) return mix(low, high, (at - from) / (to - from));
  }
  return stops[stops.length - 1][1];
}
