import { type LayingCost, layingCost } from './laying-cost.ts';
import type { RouteRule } from './route-rule.ts';

/** A line that costs least to lay, whatever it climbs over. */
export function shortestRule(cost: LayingCost): RouteRule {
  return {
    start: () => ({ first: 0, second: 0 }),
    walk(carried, step) {
      carried.first += layingCost(step, cost);
      return true;
    },
    bound: (carried, left) => carried.first + left.straight,
    before: (after) => after,
    atEnd: () => Number.POSITIVE_INFINITY,
  };
}
