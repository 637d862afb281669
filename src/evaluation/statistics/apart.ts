import type { Estimate } from './estimate.ts';

/** How one estimate differs from another. */
export interface Difference {
  /** Of the likely values: the second less the first. */
  readonly by: number;
  /**
   * Whether their 10-to-90 bands lie apart. Bands that meet may still differ surely, since both may rest on the same doubtful
   * heights; only draws of both together show it.
   */
  readonly apart: boolean;
  /** Whether all three percentiles lie nearer to each other than draws of one and the same plan may bring them. */
  readonly alike: boolean;
}

/**
 * How far a percentile of some thousand draws may stray, as a share of the band's width. The standard error of a 10th
 * percentile of n independent draws of a normal distribution is √(0.09/n)/0.175 of its standard deviation, so 1.9 % of the
 * band's width of 2.56 of them at n = 1000; quasi-random draws stray less. From the asymptotic variance of a sample
 * quantile, p(1−p)/(n f²).
 */
const STRAY = 0.05;

export function difference(one: Estimate, other: Estimate): Difference {
  const stray = STRAY * Math.max(one.high - one.low, other.high - other.low);
  const near = (key: keyof Estimate) => Math.abs(other[key] - one[key]) <= stray;
  return {
    by: other.likely - one.likely,
    apart: one.high < other.low || other.high < one.low,
    alike: near('low') && near('likely') && near('high'),
  };
}

/** Whether a difference that was drawn lies on one side of nought with its 10-to-90 band. */
export const isSure = ({ low, high }: Estimate): boolean => low > 0 || high < 0;
