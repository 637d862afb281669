import type { EfficiencyBand } from '../../handbook/ram-efficiency.ts';
import type { MeasuredRun } from '../../plan/model/plan.ts';
import type { Ratio } from '../../units/quantity.ts';
import { Z90 } from '../statistics/normal.ts';

/** D'Aubuisson efficiency: 10th, 50th and 90th percentile. */
export type Band = EfficiencyBand;

/**
 * Share of the likely efficiency by which a single measured run may differ from the next: readings by bucket, wear, another
 * setting. Common practice, no source.
 */
const MEASURED_RUN_SPREAD: Ratio = 0.1;

/** Band around a factor of a measured run. */
export function bandAround(likely: Ratio): Band {
  return { low: likely * (1 - MEASURED_RUN_SPREAD), likely, high: likely * (1 + MEASURED_RUN_SPREAD) };
}

/** Band around what a pump of this kind was seen to do: η = q h / (Q H). */
export function measuredBand(run: MeasuredRun): Band {
  return bandAround((run.delivery * run.deliveryHead) / (run.driveFlow * run.fall));
}

/** Two half normal distributions that meet at the likely value, cut off at 0 and 1, which no pump passes. */
export function bandAt(band: Band): (u: number) => Ratio {
  const below = (band.likely - band.low) / Z90;
  const above = (band.high - band.likely) / Z90;
  return (u) => Math.min(1, Math.max(0, band.likely + u * (u < 0 ? below : above)));
}
