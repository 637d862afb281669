import type { Ratio } from '../units/quantity.ts';

/** Below this Reynolds number the flow is laminar. */
export const LAMINAR_END = 2000;
/** From this Reynolds number on the flow is turbulent. */
export const TURBULENT_START = 4000;

/** 2 / ln 10: Colebrook's −2 log₁₀ in natural logarithms. */
const LOG_FACTOR = 2 / Math.LN10;
const COLEBROOK_VISCOUS = 2.51;
const COLEBROOK_ROUGH = 3.7;
/** Hagen-Poiseuille: f Re of laminar flow. */
export const LAMINAR_FACTOR = 64;
/** A value of 1/√f in the middle of pipe flow, from which the iteration starts. */
const USUAL_ROOT = 6;
/** Once a step of Newton's method is this small the next would be below the last digit. */
const LAST_CHANGE = 1e-7;

/**
 * Darcy friction factor of a full round pipe.
 *
 * Re ≤ 2000: f = 64 / Re.  Re ≥ 4000: 1/√f = −2 log₁₀(ε/(3.7 D) + 2.51 / (Re √f)), solved to the last digit.
 * Between them ln f is a cubic in ln Re that meets both laws in value and slope, so that head loss rises smoothly with flow;
 * that middle is our own interpolation, since no law is published for it.
 *
 * Re Reynolds number; ε/D roughness over bore, 0 to 0.05. Re = 0 has no factor; head loss does not need one there.
 * Source: Hagen-Poiseuille; C. F. Colebrook, Turbulent flow in pipes, Journal of the Institution of Civil Engineers 11, 1939.
 */
export function frictionFactor(flow: { readonly reynolds: Ratio; readonly relativeRoughness: Ratio }): Ratio {
  const { reynolds, relativeRoughness } = flow;
  if (!(reynolds > 0)) throw new RangeError(`found Reynolds number ${reynolds}, expected more than 0`);
  if (reynolds <= LAMINAR_END) return LAMINAR_FACTOR / reynolds;
  const rough = roughTerm(relativeRoughness);
  if (reynolds < TURBULENT_START) return transition(rough)(reynolds) / (reynolds * reynolds);
  return colebrookRoot(rough, reynolds) ** -2;
}

/** f Re² as a function of Re for one relative roughness: 0 without flow, and rising with it. */
export type FrictionLaw = (reynolds: Ratio) => number;

/** Prepares the friction of one pipe wall for many flows. */
export function frictionLaw(relativeRoughness: Ratio): FrictionLaw {
  const rough = roughTerm(relativeRoughness);
  let between: FrictionLaw | null = null;
  return (reynolds) => {
    if (reynolds <= LAMINAR_END) return LAMINAR_FACTOR * reynolds;
    if (reynolds < TURBULENT_START) {
      between ??= transition(rough);
      return between(reynolds);
    }
    const root = colebrookRoot(rough, reynolds);
    return (reynolds / root) * (reynolds / root);
  };
}

/** ε / (3.7 D), Colebrook's rough wall. */
export function roughTerm(relativeRoughness: Ratio): Ratio {
  if (!(relativeRoughness >= 0 && relativeRoughness < 0.5)) {
    throw new RangeError(`found roughness over bore ${relativeRoughness}, expected 0 to 0.5`);
  }
  return relativeRoughness / COLEBROOK_ROUGH;
}

/** 1/√f by Colebrook: x + (2/ln 10) ln(rough + 2.51 x / Re) = 0 by Halley's method, whose error is cubed at each step. */
function colebrookRoot(rough: number, reynolds: number): number {
  const viscous = COLEBROOK_VISCOUS / reynolds;
  let x = USUAL_ROOT;
  for (let step = 0; step < 3; step += 1) {
    const inner = rough + viscous * x;
    const rate = viscous / inner;
    const value = x + LOG_FACTOR * Math.log(inner);
    const slope = 1 + LOG_FACTOR * rate;
    const bend = -LOG_FACTOR * rate * rate;
    x -= (2 * value * slope) / (2 * slope * slope - value * bend);
  }
  return x;
}

/**
 * Reynolds number at which a turbulent pipe loses a given head to friction and local losses together.
 *
 * With h = A f Re² + B Re² Colebrook's law becomes one equation of x = 1/√f alone,
 * x + (2/ln 10) ln(rough + 2.51 √((A + B x²)/h)) = 0, whose left side rises with x. Newton's method, whose error is
 * squared at each step. The answer is true where it comes out turbulent.
 */
export function turbulentReynolds(about: {
  readonly rough: number;
  readonly perFriction: number;
  readonly perSquare: number;
  readonly head: number;
}): Ratio {
  const { rough, perFriction, perSquare, head } = about;
  let x = USUAL_ROOT;
  for (let step = 0; step < 30; step += 1) {
    const viscous = COLEBROOK_VISCOUS * Math.sqrt((perFriction + perSquare * x * x) / head);
    const rate = (COLEBROOK_VISCOUS * COLEBROOK_VISCOUS * perSquare * x) / (head * viscous);
    const value = x + LOG_FACTOR * Math.log(rough + viscous);
    const change = value / (1 + (LOG_FACTOR * rate) / (rough + viscous));
    x = Math.max(x - change, x / 8);
    if (Math.abs(change) <= LAST_CHANGE * x) break;
  }
  return Math.sqrt(head / (perFriction / (x * x) + perSquare));
}

/** The cubic between laminar and turbulent flow, in ln(f Re²) against ln Re. */
function transition(rough: number): FrictionLaw {
  const root = colebrookRoot(rough, TURBULENT_START);
  const viscousShare =
    (COLEBROOK_VISCOUS * root) / TURBULENT_START / (rough + (COLEBROOK_VISCOUS * root) / TURBULENT_START);
  const endSlope = 2 - (2 * LOG_FACTOR * viscousShare) / (root + LOG_FACTOR * viscousShare);
  const start = Math.log(LAMINAR_FACTOR * LAMINAR_END);
  const width = Math.log(TURBULENT_START / LAMINAR_END);
  const rise = 2 * Math.log(TURBULENT_START / root) - start;
  const square = 3 * rise - (2 + endSlope) * width;
  const cube = (1 + endSlope) * width - 2 * rise;
  return (reynolds) => {
    const s = Math.log(reynolds / LAMINAR_END) / width;
    return Math.exp(start + s * (width + s * (square + s * cube)));
  };
}
