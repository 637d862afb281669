import type { Ratio } from '../../units/quantity.ts';
import type { Estimate, Verdict } from './estimate.ts';
import { normalChance, normalQuantile, Z90, Z975 } from './normal.ts';

export type Side = 'at-least' | 'at-most';

/** What is known of one number: its spread, and the chance that it reaches a limit. */
export interface Spread {
  readonly estimate: Estimate;
  chanceAtLeast(limit: number): Ratio;
}

/** A number without doubt. */
export function exactly(value: number): Spread {
  return {
    estimate: { low: value, likely: value, high: value },
    chanceAtLeast: (limit) => (value >= limit ? 1 : 0),
  };
}

/** A number whose percentiles are known; each side of the middle is taken as half of a normal distribution. */
export function spreadOf(estimate: Estimate): Spread {
  return {
    estimate,
    chanceAtLeast(limit) {
      const reach = limit < estimate.likely ? estimate.likely - estimate.low : estimate.high - estimate.likely;
      if (reach <= 0) return estimate.likely >= limit ? 1 : 0;
      return normalChance((Z90 * (estimate.likely - limit)) / reach);
    },
  };
}

/** A spread turned into another quantity: factor · x. A negative factor turns it round. */
export function scaled(spread: Spread, factor: number): Spread {
  const { low, likely, high } = spread.estimate;
  const ends = [low * factor, high * factor] as const;
  return {
    estimate: { low: Math.min(...ends), likely: likely * factor, high: Math.max(...ends) },
    chanceAtLeast(limit) {
      const reached = spread.chanceAtLeast(limit / factor);
      return factor > 0 ? reached : 1 - reached;
    },
  };
}

/** A spread moved by a sure amount: x + by. */
export function shifted(spread: Spread, by: number): Spread {
  const { low, likely, high } = spread.estimate;
  return {
    estimate: { low: low + by, likely: likely + by, high: high + by },
    chanceAtLeast: (limit) => spread.chanceAtLeast(limit - by),
  };
}

/** The lesser of two numbers that mostly go together: no more likely to reach a limit than either. */
export function lesser(a: Spread, b: Spread): Spread {
  const least = (part: keyof Estimate) => Math.min(a.estimate[part], b.estimate[part]);
  return {
    estimate: { low: least('low'), likely: least('likely'), high: least('high') },
    chanceAtLeast: (limit) => Math.min(a.chanceAtLeast(limit), b.chanceAtLeast(limit)),
  };
}

/** Equally likely places of a doubtful limit about its likely value, in standard deviations of 1 together. */
const DOUBTFUL = placesOfLimit(64);

function placesOfLimit(count: number): readonly number[] {
  const middles = Array.from({ length: count }, (_, i) => normalQuantile((i + 0.5) / count));
  const deviation = Math.sqrt(middles.reduce((sum, z) => sum + z * z, 0) / count);
  return middles.map((z) => z / deviation);
}

/**
 * A spread as it is held against a limit that is itself not known for sure: P(x ≥ L) = mean of P(x ≥ Lᵢ) over limits Lᵢ of
 * equal chance. `reach` is how far the limit's 10th and 90th percentile lie from its likely value; the limit is normal and
 * independent of x, which may have any distribution. What is shown stays the number's own spread.
 */
export function againstDoubtful(spread: Spread, reach: number): Spread {
  if (!(reach > 0)) return spread;
  const { low, likely, high } = spread.estimate;
  if (low === high)
    return { ...spreadOf({ low: likely - reach, likely, high: likely + reach }), estimate: spread.estimate };
  return {
    estimate: spread.estimate,
    chanceAtLeast(limit) {
      const at = (deviations: number) => spread.chanceAtLeast(limit + (deviations / Z90) * reach);
      const [most, least] = [at(DOUBTFUL[0] ?? 0), at(DOUBTFUL.at(-1) ?? 0)];
      return most === least ? most : DOUBTFUL.reduce((sum, z) => sum + at(z), 0) / DOUBTFUL.length;
    },
  };
}

/** Reach to the 10th and 90th percentile of a number that a tolerance holds 95 times of a hundred. */
export const reachOfTolerance = (tolerance: number): number => (Z90 / Z975) * tolerance;

/** A number known by an interval that holds it 95 times of a hundred, as tolerances are given. */
export function within95({ low, likely, high }: Estimate): Spread {
  const share = Z90 / Z975;
  return spreadOf({ low: likely - share * (likely - low), likely, high: likely + share * (high - likely) });
}

/**
 * The quotient of two independent numbers, the divisor surely above 0 and the dividend not below it.
 *
 * ln q = ln a − ln b; the distances of the logarithms from their middles add by their squares. First order. A dividend that is
 * likely 0 has no logarithm: its spread is then all there is.
 */
export function quotient(numerator: Spread, denominator: Spread): Spread {
  const [a, b] = [numerator.estimate, denominator.estimate];
  if (a.likely <= 0) return scaled(numerator, 1 / b.likely);
  const likely = a.likely / b.likely;
  const below = Math.hypot(Math.log(a.likely / a.low), Math.log(b.high / b.likely));
  const above = Math.hypot(Math.log(a.high / a.likely), Math.log(b.likely / b.low));
  return spreadOf({ low: likely * Math.exp(-below), likely, high: likely * Math.exp(above) });
}

/**
 * The one comparison of the program: a spread against a limit. It holds or fails when the chance is beyond the confidence
 * asked for; in between it must be measured.
 */
export function compare(
  spread: Spread,
  test: { readonly limit: number; readonly side: Side; readonly confidence: Ratio },
): { readonly verdict: Verdict; readonly chance: Ratio } {
  const reached = spread.chanceAtLeast(test.limit);
  const atLimit = spread.estimate.low === test.limit && spread.estimate.high === test.limit;
  const chance = test.side === 'at-least' || atLimit ? reached : 1 - reached;
  if (chance >= test.confidence) return { verdict: 'holds', chance };
  return { verdict: chance <= 1 - test.confidence ? 'fails' : 'measure', chance };
}

const ORDER: readonly Verdict[] = ['holds', 'measure', 'fails'];

/** The worst of several verdicts; `holds` when there are none. */
export function worst(verdicts: readonly Verdict[]): Verdict {
  return verdicts.reduce<Verdict>((w, v) => (ORDER.indexOf(v) > ORDER.indexOf(w) ? v : w), 'holds');
}

/** The best of several verdicts; null when there are none. */
export function best(verdicts: readonly Verdict[]): Verdict | null {
  return verdicts.reduce<Verdict | null>((b, v) => (b === null || ORDER.indexOf(v) < ORDER.indexOf(b) ? v : b), null);
}
