import type { Ratio } from '../units/quantity.ts';
import { colebrookRoot, roughTerm } from './colebrook.ts';
import {
  LAMINAR_END,
  LAMINAR_FACTOR,
  type TransitionLaw,
  TURBULENT_START,
  transitionFriction,
  transitionLaw,
} from './transition-flow.ts';

/**
 * Darcy friction factor of a full round pipe.
 *
 * Re ≤ 2000: f = 64 / Re.  Re ≥ 4000: 1/√f = −2 log₁₀(ε/(3.7 D) + 2.51 / (Re √f)), solved to the last digit.
 * Between them a cubic in logarithms that meets both laws in value and slope.
 *
 * Re Reynolds number; ε/D roughness over bore, 0 to 0.05. Re = 0 has no factor; head loss does not need one there.
 * Source: Hagen-Poiseuille; C. F. Colebrook, Turbulent flow in pipes, Journal of the Institution of Civil Engineers 11, 1939.
 */
export function frictionFactor(flow: { readonly reynolds: Ratio; readonly relativeRoughness: Ratio }): Ratio {
  const { reynolds, relativeRoughness } = flow;
  if (!(reynolds > 0)) throw new RangeError(`found Reynolds number ${reynolds}, expected more than 0`);
  if (reynolds <= LAMINAR_END) return LAMINAR_FACTOR / reynolds;
  const rough = roughTerm(relativeRoughness);
  if (reynolds < TURBULENT_START) return transitionFriction(transitionLaw(rough), reynolds) / (reynolds * reynolds);
  const root = colebrookRoot(rough, reynolds);
  return 1 / (root * root);
}

/** f Re² as a function of Re for one relative roughness: 0 without flow, and rising with it. */
export type FrictionLaw = (reynolds: Ratio) => number;

/** Prepares the friction of one pipe wall for many flows. */
export function frictionLaw(relativeRoughness: Ratio): FrictionLaw {
  const rough = roughTerm(relativeRoughness);
  let between: TransitionLaw | null = null;
  return (reynolds) => {
    if (reynolds <= LAMINAR_END) return LAMINAR_FACTOR * reynolds;
    if (reynolds < TURBULENT_START) {
      between ??= transitionLaw(rough);
      return transitionFriction(between, reynolds);
    }
    const root = colebrookRoot(rough, reynolds);
    return (reynolds / root) * (reynolds / root);
  };
}
