import type { Metres, Ratio } from '../../units/quantity.ts';
import type { Step } from './route-rule.ts';

export interface LayingCost {
  readonly steepFrom: Ratio;
  readonly steepWeight: Ratio;
}

/**
 * What a piece of line costs to lay, as metres of easy line.
 *
 * C = √(r² + d²) (1 + w max(0, |d|/r − s)); r level run, m; d rise, m; s steepness from which laying is harder; w weight.
 * Never less than the straight length. Source: common practice, no source.
 */
export function layingCost({ run, from, to }: Step, { steepFrom, steepWeight }: LayingCost): Metres {
  const rise = Math.abs(to - from);
  const length = Math.sqrt(run * run + rise * rise);
  return rise > steepFrom * run ? length * (1 + steepWeight * (rise / run - steepFrom)) : length;
}
