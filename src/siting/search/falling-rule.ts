import type { Metres, Ratio } from '../../units/quantity.ts';
import { type LayingCost, layingCost } from './laying-cost.ts';
import type { RouteRule } from './route-rule.ts';

export interface FallingTerms extends LayingCost {
  readonly leastFall: Ratio;
  readonly deepest: Metres;
  readonly highest: Metres;
  /** Heights of the pipe at a place that differ by less are one; 0 makes the search exact and slow. */
  readonly slack: Metres;
  /** Ground at the two ends. */
  readonly from: Metres;
  readonly to: Metres;
}

/**
 * A line that falls all the way, the shortest of them.
 *
 * It lies as high as it may: p′ = min(p − s r, z + c), and is not to be laid where p′ < z − d; p height of the pipe, m; s least
 * fall per metre of level run r, m; z ground, m; c, d how far above and below the ground it may lie, m. A higher pipe can go on
 * wherever a lower one can, so of a way only its cost (first) and the pipe's height below nought (second) matter.
 * Source: derived; exact for the least cut of a line of fixed course.
 */
export function fallingRule(terms: FallingTerms): RouteRule {
  const { leastFall, deepest, highest, from, to, slack } = terms;
  return {
    start: () => ({ first: 0, second: -from }),
    walk(carried, step) {
      const pipe = Math.min(-carried.second - leastFall * step.run, step.to + highest);
      if (pipe < step.to - deepest) return false;
      carried.first += layingCost(step, terms);
      carried.second = -pipe;
      return true;
    },
    bound: (carried, left) =>
      -carried.second - leastFall * left.run < to - deepest ? Number.POSITIVE_INFINITY : carried.first + left.straight,
    firstPerMetre: 1,
    slack,
    before: (after, step) => Math.min(after, deepest - step.to) - leastFall * step.run,
    atEnd: () => Number.POSITIVE_INFINITY,
  };
}
