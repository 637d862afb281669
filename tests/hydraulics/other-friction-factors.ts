/** Explicit friction factors, for comparison with Colebrook only; ε/D and Re as in the program. */

/** P. K. Swamee and A. K. Jain, Explicit equations for pipe-flow problems, Journal of the Hydraulics Division ASCE 102, 1976. */
export function swameeJain(reynolds: number, relativeRoughness: number): number {
  return 0.25 / Math.log10(relativeRoughness / 3.7 + 5.74 / reynolds ** 0.9) ** 2;
}

/** S. E. Haaland, Simple and explicit formulas for the friction factor, Journal of Fluids Engineering 105, 1983. */
export function haaland(reynolds: number, relativeRoughness: number): number {
  return (-1.8 * Math.log10((relativeRoughness / 3.7) ** 1.11 + 6.9 / reynolds)) ** -2;
}

/** S. W. Churchill, Friction-factor equation spans all fluid-flow regimes, Chemical Engineering 84, 1977. */
export function churchill(reynolds: number, relativeRoughness: number): number {
  const a = (2.457 * Math.log(1 / ((7 / reynolds) ** 0.9 + 0.27 * relativeRoughness))) ** 16;
  const b = (37_530 / reynolds) ** 16;
  return 8 * ((8 / reynolds) ** 12 + (a + b) ** -1.5) ** (1 / 12);
}
