import data from '../../data/ram-efficiency.json' with { type: 'json' };
import type { Ratio } from '../units/quantity.ts';

/** D'Aubuisson efficiency: 10th, 50th and 90th percentile. */
export interface EfficiencyBand {
  readonly low: Ratio;
  readonly likely: Ratio;
  readonly high: Ratio;
}

/** A ram that somebody measured and published. */
export interface MeasuredRam {
  readonly id: string;
  readonly headOverFall: Ratio;
  readonly efficiency: Ratio;
  readonly source: string;
}

/** Published measurements of rams, good and bad. */
export const measuredRams: readonly MeasuredRam[] = data.measured;

/** Where the printed efficiencies and the measurements come from. */
export const efficiencySource = data.printed.source;

/** Measured over modelled efficiency of published rams: what the closed form of the cycle leaves out. */
export const modelYield: EfficiencyBand = data.model;

/**
 * Eytelwein's efficiency of a good ram: η = 1.12 − 0.2 √(h/H), never below 0 nor above 1.
 *
 * h delivery head, H fall, m. Source: Eytelwein, from memory.
 */
export function eytelwein(headOverFall: Ratio): Ratio {
  const { best, slope } = data.eytelwein;
  return Math.min(1, Math.max(0, best - slope * Math.sqrt(Math.max(0, headOverFall))));
}

/**
 * Efficiency as printed, by delivery head over fall: straight between the rows, 0 beyond the last, Eytelwein's below the first,
 * where the two meet. Source: Building Trades Pocketbook, water supply chapter.
 */
export function printedEfficiency(headOverFall: Ratio): Ratio {
  const { rows } = data.printed;
  const next = rows.findIndex(([ratio = 0]) => ratio >= headOverFall);
  if (next === 0) return eytelwein(headOverFall);
  const [a, b] = [rows[next - 1], rows[next]];
  if (next < 0 || a === undefined || b === undefined) return 0;
  const [r0 = 0, e0 = 0] = a;
  const [r1 = 0, e1 = 0] = b;
  return e0 + ((e1 - e0) * (headOverFall - r0)) / (r1 - r0);
}

/** Planning band of a pump that nobody has measured, at a delivery head over the fall. Fitted on published measurements. */
export function planningBand(headOverFall: Ratio): EfficiencyBand {
  const printed = printedEfficiency(headOverFall);
  const { low, likely } = data.band;
  return { low: low * printed, likely: likely * printed, high: Math.max(printed, eytelwein(headOverFall)) };
}
