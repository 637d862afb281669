import type { CubicMetresPerSecond, Metres, Ratio } from '../../src/units/quantity.ts';

/** 4.727 of the form in feet and cubic feet a second, as in the EPANET 2.2 manual, table 3.1, brought to metres. */
const FACTOR = 4.727 * 0.3048 ** (4.871 - 3 * 1.852);
const FLOW_POWER = 1.852;
const BORE_POWER = 4.871;

/**
 * Friction head by Hazen and Williams, for comparison with older tables only: it knows no viscosity.
 *
 * h = 10.667 L (q / C)^1.852 / D^4.871, with the sign of the flow.
 *
 * h m; L length, m; q flow, m³/s; C coefficient, about 150 for smooth pipe; D bore, m. Range: turbulent water near 16 °C.
 * Source: EPANET 2.2 User Manual, US EPA, 2020, table 3.1. Published constants differ by up to 1.3 %.
 */
export function hazenWilliamsLoss(at: {
  readonly flow: CubicMetresPerSecond;
  readonly bore: Metres;
  readonly length: Metres;
  readonly coefficient: Ratio;
}): Metres {
  const size = (Math.abs(at.flow) / at.coefficient) ** FLOW_POWER;
  return (Math.sign(at.flow) * FACTOR * at.length * size) / at.bore ** BORE_POWER;
}
