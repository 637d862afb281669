import { GRAVITY } from '../hydraulics/gravity.ts';
import type { Metres, MetresPerSecond, Ratio, Seconds } from '../units/quantity.ts';

/** √(2g/K): velocity in the drive pipe for each root of a metre that a valve of this loss coefficient takes. */
export function valveConductance(loss: Ratio): number {
  return Math.sqrt((2 * GRAVITY) / loss);
}

/** s(z) = sign(z) √|z|: what an orifice passes either way. */
export function signedRoot(z: number): number {
  return z < 0 ? -Math.sqrt(-z) : Math.sqrt(z);
}

/**
 * Velocity through an orifice at the end of a pipe: the root of k v|v| + b v = z.
 *
 * v = 2 z/(b + √(b² + 4 k |z|)), which neither cancels nor fails at k = 0.
 * b = a/g pipe impedance, s; k = K/2g, s²/m; z head of the arriving characteristic over the head beyond, m.
 */
export function orificeVelocity(z: Metres, impedance: Seconds, k: number): MetresPerSecond {
  return (2 * z) / (impedance + Math.sqrt(impedance * impedance + 4 * k * Math.abs(z)));
}

/** Head before one orifice at the end of the pipe: the root H of H + b c s(H) = C, in closed form. */
export function headBehindOneValve(characteristic: Metres, impedance: Seconds, conductance: number): Metres {
  return squared(startingRoot(characteristic, impedance * conductance));
}

/** Newton steps after which the root is taken as it is; four are usual. */
const mostSteps = 40;
/** A step this small against the root's own size ends the search. */
const smallStep = 1e-13;

/**
 * The head at the pump with both valves open: C − H = b (c_w s(H) + c_c s(H − h)).
 *
 * Both roots have a kink, at H = 0 and at H = h. The unknown is the signed root of whichever lies nearer, in which the
 * equation is smooth and falls steadily, and Newton's method finds it in a few steps.
 *
 * C arriving characteristic, H head at the pump, h head in the air chamber, m; b = a/g, s; c_w, c_c conductances of the
 * valves as they stand. Range: h > 0, c_c > 0, c_w ≥ 0.
 */
export function headBetweenValves(
  characteristic: Metres,
  impedance: Seconds,
  valves: PumpValves,
  chamberHead: Metres,
): Metres {
  const half = chamberHead / 2;
  const flow = (valves.waste - valves.check) * Math.sqrt(half);
  if (characteristic - half > impedance * flow) {
    const near = {
      z: characteristic - chamberHead,
      conductance: valves.check,
      least: -Math.sqrt(half),
      most: Infinity,
    };
    return chamberHead + squared(newton(near, impedance, valves.waste, chamberHead));
  }
  const near = { z: characteristic, conductance: valves.waste, least: -Infinity, most: Math.sqrt(half) };
  return squared(newton(near, impedance, valves.check, -chamberHead));
}

/** Conductances of the two valves as they stand; 0 when shut. */
export interface PumpValves {
  waste: number;
  check: number;
}

/** The valve in whose signed root the equation is solved, with the range that keeps the other valve's head clear of 0. */
interface NearValve {
  readonly z: number;
  readonly conductance: number;
  readonly least: number;
  readonly most: number;
}

/** Root u of z − u|u| = b (c u + far s(u|u| + offset)). */
function newton(valve: NearValve, b: Seconds, far: number, offset: Metres): number {
  const { z, least, most } = valve;
  const linear = b * valve.conductance;
  let u = Math.min(most, Math.max(least, startingRoot(z, linear)));
  for (let step = 0; step < mostSteps; step += 1) {
    const size = Math.abs(u);
    const root = signedRoot(u * size + offset);
    const error = z - u * size - linear * u - b * far * root;
    const fall = 2 * size + linear + (b * far * size) / Math.abs(root);
    const next = Math.min(most, Math.max(least, u + error / fall));
    const change = next - u;
    u = next;
    if (Math.abs(change) <= smallStep * (1 + size)) break;
  }
  return u;
}

/** Root of z − u|u| = linear u; 0 where there is neither head nor conductance. */
function startingRoot(z: number, linear: number): number {
  const sum = linear + Math.sqrt(linear * linear + 4 * Math.abs(z));
  return sum > 0 ? (2 * z) / sum : 0;
}

function squared(root: number): number {
  return root * Math.abs(root);
}
