import { criterion } from '../../handbook/practice-criteria.ts';
import type { Ratio } from '../../units/quantity.ts';
import type { Finding } from '../result/evaluation.ts';
import { againstDoubtful, compare, type Spread, spreadOf } from '../statistics/compare.ts';
import { FINDINGS, type FindingCode } from './catalogue.ts';

/** A finding together with the output of the model that it judges, so that what to measure can be traced from it. */
export interface Judged {
  readonly finding: Finding;
  /** Index of the output; null where the finding rests on none. */
  readonly output: number | null;
  /** The value as it is held against the limit, with the limit's own doubt in it. */
  readonly spread: Spread;
}

export interface FindingInput {
  readonly about: string;
  readonly spread: Spread;
  /** Left out where the rule's own limit serves. */
  readonly limit?: number;
  /** How far the limit's own 10th and 90th percentile lie from it, where it is not known for sure. */
  readonly limitReach?: number;
  readonly output?: number;
  readonly facts?: Readonly<Record<string, number | string>>;
  /** Source of a limit that the plan sets, such as the pump's sheet. */
  readonly source?: string;
}

/** Judge one thing by its rule. Throws when a rule has no limit of its own and none is given: that is a wrong program. */
export function judge(code: FindingCode, confidence: Ratio, input: FindingInput): Judged {
  const kind = FINDINGS[code];
  const rule = kind.criterion === null ? null : criterion(kind.criterion);
  const limit = input.limit ?? rule?.value;
  if (limit === undefined) throw new Error(`finding ${code}: found no limit, expected one from its rule or the plan`);
  const spread = againstDoubtful(input.spread, input.limitReach ?? 0);
  const { verdict, chance } = compare(spread, { limit, side: kind.side, confidence });
  return {
    output: input.output ?? null,
    spread,
    finding: {
      code,
      about: input.about,
      bears: kind.bears,
      verdict,
      value: input.spread.estimate,
      limit,
      side: kind.side,
      quantity: kind.quantity,
      chance,
      source: input.source ?? rule?.source ?? kind.source,
      facts: input.facts ?? {},
    },
  };
}

/** Whether something is so: 1 or 0, with the chance that it is 1. */
export function chanceOf(likely: boolean, chance: Ratio): Spread {
  const value = likely ? 1 : 0;
  return {
    estimate: { low: chance < 1 ? 0 : 1, likely: value, high: chance > 0 ? 1 : 0 },
    chanceAtLeast: (limit) => (limit <= 0 ? 1 : limit <= 1 ? chance : 0),
  };
}

/** A number without doubt. */
export function sure(value: number): Spread {
  return spreadOf({ low: value, likely: value, high: value });
}

/** Something that nobody can say from what is at hand: whatever the confidence, it must be measured. */
export function undecided(value: number): Spread {
  return { estimate: { low: value, likely: value, high: value }, chanceAtLeast: () => 0.5 };
}
