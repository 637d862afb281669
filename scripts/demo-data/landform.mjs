import { nearestOn } from './curve.mjs';
import { AXIS, GULLY, STREAM } from './features.mjs';
import { HOLLOWS } from './hollows.mjs';
import { KNOLL } from './landmarks.mjs';
import { layeredNoise, noise } from './noise.mjs';
import { SEED } from './random.mjs';
import { along, mix, ramp, softLower } from './shaping.mjs';

const NORTH_SIDE = { floor: 7, foot: 0.05, reach: 400, ridge: 56 };
const SOUTH_SIDE = { floor: 16, foot: 0.035, reach: 380, ridge: 40 };

/** Rise of a valley side above the stream: a flat floor, a hollow foot, a steep middle and a rounded ridge. */
function sideRise(distance, { floor, foot, reach, ridge }, ridgeNoise) {
  const out = Math.max(0, distance - floor);
  return foot * Math.min(out, reach) + (ridge + ridgeNoise) * ramp(0, reach, out);
}

/** Bends the straight lines of the design as weather and rock would. */
function bent(x, y, away, wavelength) {
  const kind = { wavelength, octaves: 2, roughness: 0.45, seed: SEED + 20 };
  return [x + away * layeredNoise(x, y, kind), y + away * layeredNoise(x, y, { ...kind, seed: SEED + 30 })];
}

/** The trend of the valley: its axis runs gently from west to east and falls as the stream does. */
function valley(x, y) {
  const [bx, by] = bent(x, y, 26, 210);
  const out = (by - along(AXIS.line, bx)) * AXIS.cosine;
  const side = out > 0 ? NORTH_SIDE : SOUTH_SIDE;
  const ridgeNoise = 10 * noise(x / 240, y / 240, SEED + 40);
  return along(AXIS.level, x - 0.25 * (y - 380)) + 1.1 + sideRise(Math.abs(out), side, ridgeNoise);
}

function cutBy(height, hollow, x, y, blend) {
  const [hx, hy] = hollow.steady ? [x, y] : bent(x, y, 9, 75);
  const seen = nearestOn(hollow.curve, hx, hy);
  const floor = along(hollow.floor, seen.station);
  const flank = hollow.flank * (1 + 0.25 * noise(x / 60, y / 60, SEED + 50));
  const past = Math.max(0, seen.distance - 2.5);
  const rise = (flank * past * past) / (past + 9) + hollow.close * past * past;
  return softLower(height, floor + rise, blend);
}

function knoll(height, x, y) {
  const cos = Math.cos(KNOLL.turn);
  const sin = Math.sin(KNOLL.turn);
  const u = (cos * (x - KNOLL.x) + sin * (y - KNOLL.y)) / KNOLL.along;
  const v = (cos * (y - KNOLL.y) - sin * (x - KNOLL.x)) / KNOLL.across;
  const ragged = 1 + 0.16 * noise(x / 45, y / 45, SEED + 60);
  const share = ramp(1.25, 0, Math.hypot(u, v) * ragged);
  return mix(height, Math.max(height, KNOLL.level), share);
}

/**
 * The bare design of the valley at a place, before weather: sides above the stream, the knoll, the gully and the hollows.
 *
 * @param {number} x
 * @param {number} y
 */
export function landform(x, y) {
  let height = knoll(valley(x, y), x, y);
  for (const hollow of HOLLOWS) height = cutBy(height, hollow, x, y, 9);
  height = cutBy(height, GULLY, x, y, 5);
  height += ramp(2, 25, height - along(AXIS.level, x)) * rough(x, y);
  return cutBy(height, STREAM, x, y, 1.5);
}

function rough(x, y) {
  return 1.9 * layeredNoise(x, y, { wavelength: 130, octaves: 4, roughness: 0.46, seed: SEED + 70 });
}
