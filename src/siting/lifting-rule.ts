import type { Metres, Ratio } from '../units/quantity.ts';
import { type LayingCost, layingCost } from './laying-cost.ts';
import type { RouteRule } from './route-rule.ts';

export interface LiftingTerms extends LayingCost {
  /** Level that the pump lifts from. */
  readonly pump: Metres;
  /** Level at which the line discharges. */
  readonly outlet: Metres;
  readonly friction: Ratio;
  readonly restAsLine: Metres;
}

/** Lifts below this say nothing of what a metre more is worth. */
const LEAST_LIFT: Metres = 1;

/**
 * What water costs that a delivery line brings, as metres of line times metres of head.
 *
 * W = (R + C) (max(1, g − p) + i C); C laying cost of the line and R of everything else, m; g governing level, the highest ground
 * on the way or the outlet if that is higher, m; p level of the pump, m; i friction per metre. A ram of given fall and intake
 * delivers in inverse proportion to that head, so W is what is spent for each litre a day.
 * Source: derived from q h = η Q H with η held constant; R and i are common practice, no source.
 */
export function worthOfLift(terms: LiftingTerms, cost: Metres, governing: Metres): number {
  const { pump, friction, restAsLine } = terms;
  return (restAsLine + cost) * (Math.max(LEAST_LIFT, governing - pump) + friction * cost);
}

/** A delivery line that brings water cheapest. First is the laying cost, second the governing level. */
export function liftingRule(terms: LiftingTerms): RouteRule {
  const floor = Math.max(terms.outlet, terms.pump);
  return {
    start: () => ({ first: 0, second: floor }),
    walk(carried, step) {
      carried.first += layingCost(step, terms);
      if (step.to > carried.second) carried.second = step.to;
      return true;
    },
    bound: (carried, left) => worthOfLift(terms, carried.first + left.straight, carried.second),
    before: (after) => after,
    atEnd: (found) => found.second,
  };
}
