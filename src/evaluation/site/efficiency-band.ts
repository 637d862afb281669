import type { EfficiencyBand } from '../../handbook/ram-efficiency.ts';
import type { Ratio } from '../../units/quantity.ts';
import { Z90 } from '../statistics/normal.ts';

/** D'Aubuisson efficiency: 10th, 50th and 90th percentile. */
export type Band = EfficiencyBand;

/** Share of the likely efficiency by which a pump may differ from its maker's curve. Common practice, no source. */
const CURVE_SPREAD: Ratio = 0.1;

/** Band around a curve. */
export function bandAround(likely: Ratio): Band {
  return { low: likely * (1 - CURVE_SPREAD), likely, high: likely * (1 + CURVE_SPREAD) };
}

/** Two half normal distributions that meet at the likely value, cut off at 0 and 1, which no pump passes. */
export function bandAt(band: Band): (u: number) => Ratio {
  const below = (band.likely - band.low) / Z90;
  const above = (band.high - band.likely) / Z90;
  return (u) => Math.min(1, Math.max(0, band.likely + u * (u < 0 ? below : above)));
}
