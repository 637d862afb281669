import type { FallingTerms } from './falling-rule.ts';
import type { Carried, RouteRule } from './route-rule.ts';

/**
 * The way on which a falling line lacks least: how much deeper than allowed it must go at its worst place.
 *
 * e = max over the way of z − d − p; p = min(p − s r, z + c) as in the falling rule, whatever its depth. First is e, second the
 * pipe's height below nought. Source: derived; a way of least bottleneck.
 */
export function blockedRule({ leastFall, deepest, highest, from, to, slack }: FallingTerms): RouteRule {
  return {
    start: () => ({ first: 0, second: -from }),
    walk(carried: Carried, step) {
      const pipe = Math.min(-carried.second - leastFall * step.run, step.to + highest);
      carried.first = Math.max(carried.first, step.to - deepest - pipe);
      carried.second = -pipe;
      return true;
    },
    bound: (carried, left) => Math.max(carried.first, to - deepest - (-carried.second - leastFall * left.run)),
    firstPerMetre: 0,
    slack,
    before: (after) => after,
    atEnd: () => Number.POSITIVE_INFINITY,
  };
}
