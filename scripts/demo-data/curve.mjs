/** Spacing of the samples that stand for a smooth curve, m. */
const STEP = 2;

function onSpline(p0, p1, p2, p3, t) {
  const t2 = t * t;
  const t3 = t2 * t;
  return 0.5 * (2 * p1 + (p2 - p0) * t + (2 * p0 - 5 * p1 + 4 * p2 - p3) * t2 + (3 * p1 - p0 - 3 * p2 + p3) * t3);
}

/**
 * A smooth curve through the given places (Catmull-Rom), as closely spaced samples with their distance from the start.
 *
 * @param {readonly (readonly [number, number])[]} places
 */
export function smoothCurve(places) {
  const at = (k) => places[Math.min(places.length - 1, Math.max(0, k))];
  const samples = [];
  for (let k = 0; k < places.length - 1; k++) {
    const [p0, p1, p2, p3] = [at(k - 1), at(k), at(k + 1), at(k + 2)];
    const pieces = Math.max(1, Math.ceil(Math.hypot(p2[0] - p1[0], p2[1] - p1[1]) / STEP));
    for (let i = 0; i < pieces; i++) {
      const t = i / pieces;
      samples.push([onSpline(p0[0], p1[0], p2[0], p3[0], t), onSpline(p0[1], p1[1], p2[1], p3[1], t)]);
    }
  }
  samples.push(at(places.length - 1));
  return measured(samples);
}

function measured(samples) {
  const x = Float64Array.from(samples, (s) => s[0]);
  const y = Float64Array.from(samples, (s) => s[1]);
  const station = new Float64Array(x.length);
  for (let k = 1; k < x.length; k++) station[k] = station[k - 1] + Math.hypot(x[k] - x[k - 1], y[k] - y[k - 1]);
  return { x, y, station, length: station[x.length - 1] };
}

/** Every so manyth sample is looked at first; the segments around the best one are then looked at closely. */
const STRIDE = 6;

function nearestSample(curve, x, y) {
  let best = 0;
  let least = Infinity;
  for (let k = 0; k < curve.x.length; k += STRIDE) {
    const dx = curve.x[k] - x;
    const dy = curve.y[k] - y;
    const squared = dx * dx + dy * dy;
    if (squared < least) [best, least] = [k, squared];
  }
  return best;
}

/**
 * Where a place lies as seen from a curve: distance, station of the nearest point, and side (+1 left of it, −1 right).
 *
 * @param {ReturnType<typeof smoothCurve>} curve
 * @param {number} x
 * @param {number} y
 */
export function nearestOn(curve, x, y) {
  const sample = nearestSample(curve, x, y);
  const last = Math.min(curve.x.length - 2, sample + STRIDE);
  let best = { distance: Infinity, station: 0, side: 1 };
  for (let k = Math.max(0, sample - STRIDE); k <= last; k++) {
    const seen = fromSegment(curve, k, x, y);
    if (seen.distance < best.distance) best = seen;
  }
  return best;
}

/** The same from one segment of the curve. */
export function fromSegment(curve, k, x, y) {
  const dx = curve.x[k + 1] - curve.x[k];
  const dy = curve.y[k + 1] - curve.y[k];
  const px = x - curve.x[k];
  const py = y - curve.y[k];
  const length = Math.hypot(dx, dy);
  const share = Math.min(1, Math.max(0, (px * dx + py * dy) / (length * length)));
  return {
    distance: Math.hypot(px - share * dx, py - share * dy),
    station: curve.station[k] + share * length,
    side: dx * py - dy * px >= 0 ? 1 : -1,
  };
}
