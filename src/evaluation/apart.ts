import type { Estimate } from './estimate.ts';

/** How one estimate differs from another. */
export interface Difference {
  /** Of the likely values: the second less the first. */
  readonly by: number;
  /**
   * Whether their 10-to-90 bands lie apart. Bands that meet may still differ surely, since both may rest on the same doubtful
   * heights; they do not show it.
   */
  readonly apart: boolean;
}

export function difference(one: Estimate, other: Estimate): Difference {
  return { by: other.likely - one.likely, apart: one.high < other.low || other.high < one.low };
}
