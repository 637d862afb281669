import type { Metres, Ratio } from '../units/quantity.ts';

/** 2 / ln 10: Colebrook's −2 log₁₀ in natural logarithms. */
const LOG_FACTOR = 2 / Math.LN10;
const VISCOUS = 2.51;
const ROUGH = 3.7;
/** A value of 1/√f in the middle of pipe flow, from which the iterations start. */
const USUAL_ROOT = 6;
const HALLEY_STEPS = 3;
/** Once a step of Newton's method is this small the next would be below the last digit. */
const LAST_CHANGE = 1e-7;
const MOST_STEPS = 30;

/** Colebrook's rough wall, ε / (3.7 D); refuses what cannot be a pipe. */
export function roughTerm(relativeRoughness: Ratio): Ratio {
  if (!(relativeRoughness >= 0 && relativeRoughness < 0.5)) {
    throw new RangeError(`found roughness over bore ${relativeRoughness}, expected 0 to 0.5`);
  }
  return relativeRoughness / ROUGH;
}

/**
 * 1/√f of turbulent flow, to the last digit.
 *
 * x + (2/ln 10) ln(ε/(3.7 D) + 2.51 x / Re) = 0 by Halley's method, whose error is cubed at each step.
 *
 * Range: Re from 4000, ε/D up to 0.05.
 * Source: C. F. Colebrook, Turbulent flow in pipes, Journal of the Institution of Civil Engineers 11, 1939.
 */
export function colebrookRoot(rough: Ratio, reynolds: Ratio): Ratio {
  const viscous = VISCOUS / reynolds;
  let x = USUAL_ROOT;
  for (let step = 0; step < HALLEY_STEPS; step += 1) {
    const inner = rough + viscous * x;
    const rate = viscous / inner;
    const value = x + LOG_FACTOR * Math.log(inner);
    const slope = 1 + LOG_FACTOR * rate;
    const bend = -LOG_FACTOR * rate * rate;
    x -= (2 * value * slope) / (2 * slope * slope - value * bend);
  }
  return x;
}

/** How ln(f Re²) rises with ln Re in turbulent flow: 2 on a rough wall, less on a smooth one. */
export function colebrookSlope(rough: Ratio, reynolds: Ratio): Ratio {
  const root = colebrookRoot(rough, reynolds);
  const viscous = (VISCOUS * root) / reynolds;
  const share = (LOG_FACTOR * viscous) / (rough + viscous);
  return 2 - (2 * share) / (root + share);
}

/**
 * Reynolds number at which a turbulent pipe loses a given head to friction and local losses together.
 *
 * With h = A f Re² + B Re² Colebrook's law becomes one equation of x = 1/√f alone,
 * x + (2/ln 10) ln(ε/(3.7 D) + 2.51 √((A + B x²)/h)) = 0, whose left side rises with x. Newton's method, whose error is
 * squared at each step. To be asked only for heads that make the flow turbulent.
 */
export function colebrookReynolds(pipe: {
  readonly rough: Ratio;
  readonly perFriction: Metres;
  readonly perSquare: Metres;
  readonly head: Metres;
}): Ratio {
  const { rough, perFriction, perSquare, head } = pipe;
  let x = USUAL_ROOT;
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const viscous = VISCOUS * Math.sqrt((perFriction + perSquare * x * x) / head);
    const rate = (VISCOUS * VISCOUS * perSquare * x) / (head * viscous);
    const value = x + LOG_FACTOR * Math.log(rough + viscous);
    const change = value / (1 + (LOG_FACTOR * rate) / (rough + viscous));
    x = Math.max(x - change, x / 8);
    if (Math.abs(change) <= LAST_CHANGE * x) break;
  }
  return Math.sqrt(head / (perFriction / (x * x) + perSquare));
}
