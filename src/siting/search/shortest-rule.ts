import type { Metres } from '../../units/quantity.ts';
import { type LayingCost, layingCost } from './laying-cost.ts';
import type { RouteRule } from './route-rule.ts';

export interface ShortestTerms extends LayingCost {
  /** Ground above this level is not crossed. */
  readonly ceiling: Metres;
  /** A way that costs this much or more is of no use. */
  readonly mostCost: Metres;
}

/** A line that costs least to lay below a ceiling. First is the laying cost, second is not used. */
export function shortestRule(terms: ShortestTerms): RouteRule {
  const { ceiling, mostCost } = terms;
  return {
    start: () => ({ first: 0, second: 0 }),
    walk(carried, step) {
      if (step.to > ceiling) return false;
      carried.first += layingCost(step, terms);
      return true;
    },
    bound(carried, left) {
      const cost = carried.first + left.straight;
      return cost < mostCost ? cost : Number.POSITIVE_INFINITY;
    },
    firstPerMetre: 1,
    slack: 0,
    before: (after) => after,
    atEnd: () => Number.POSITIVE_INFINITY,
  };
}
