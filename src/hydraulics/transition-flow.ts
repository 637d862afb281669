import type { Metres, Ratio } from '../units/quantity.ts';
import { colebrookRoot, colebrookSlope } from './colebrook.ts';

/** Below this Reynolds number the flow is laminar. */
export const LAMINAR_END = 2000;
/** From this Reynolds number on the flow is turbulent. */
export const TURBULENT_START = 4000;
/** Hagen-Poiseuille: f Re of laminar flow. */
export const LAMINAR_FACTOR = 64;

const LOG_WIDTH = Math.log(TURBULENT_START / LAMINAR_END);
const LAST_DIGITS = 1e-13;
const MOST_STEPS = 40;

/**
 * Friction between laminar and turbulent flow for one wall.
 *
 * ln(f Re²) = start + s (linear + s (square + s cube)), s = ln(Re/2000) / ln 2: the cubic that meets 64/Re at Re 2000 and
 * Colebrook at Re 4000 in value and slope. No law is published for this middle; ours keeps head loss smooth and rising.
 */
export interface TransitionLaw {
  readonly start: number;
  readonly linear: number;
  readonly square: number;
  readonly cube: number;
}

/** The cubic of one wall. */
export function transitionLaw(rough: Ratio): TransitionLaw {
  const start = Math.log(LAMINAR_FACTOR * LAMINAR_END);
  const rise = 2 * Math.log(TURBULENT_START / colebrookRoot(rough, TURBULENT_START)) - start;
  const linear = LOG_WIDTH;
  const end = colebrookSlope(rough, TURBULENT_START) * LOG_WIDTH;
  return { start, linear, square: 3 * rise - 2 * linear - end, cube: linear + end - 2 * rise };
}

/** f Re² between laminar and turbulent flow. */
export function transitionFriction(law: TransitionLaw, reynolds: Ratio): number {
  return frictionAt(law, Math.log(reynolds / LAMINAR_END) / LOG_WIDTH);
}

function frictionAt({ start, linear, square, cube }: TransitionLaw, s: number): number {
  return Math.exp(start + s * (linear + s * (square + s * cube)));
}

/**
 * Reynolds number at which h = A f Re² + B Re² between laminar and turbulent flow.
 *
 * Newton's method on ln h against s, which is nearly straight and rises; a step out of the bracket is replaced by half of it.
 */
export function transitionReynolds(pipe: {
  readonly law: TransitionLaw;
  readonly perFriction: Metres;
  readonly perSquare: Metres;
  readonly head: Metres;
}): Ratio {
  const { law, perFriction, perSquare, head } = pipe;
  const squareAtStart = perSquare * LAMINAR_END * LAMINAR_END;
  let [low, high, s] = [0, 1, 0.5];
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const friction = perFriction * frictionAt(law, s);
    const local = squareAtStart * Math.exp(2 * LOG_WIDTH * s);
    const over = Math.log((friction + local) / head);
    if (Math.abs(over) < LAST_DIGITS) break;
    if (over < 0) low = s;
    else high = s;
    const rise = law.linear + s * (2 * law.square + 3 * s * law.cube);
    const slope = (friction * rise + local * 2 * LOG_WIDTH) / (friction + local);
    const next = s - over / slope;
    s = next > low && next < high ? next : (low + high) / 2;
  }
  return LAMINAR_END * Math.exp(LOG_WIDTH * s);
}
