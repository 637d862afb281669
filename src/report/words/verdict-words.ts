import type { Verdict } from '../../evaluation/statistics/estimate.ts';
import type { TankPoint } from '../../plan/model/plan.ts';

/** The three answers of a comparison in a word or two. */
export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  holds: 'OK',
  measure: 'check on site',
  fails: 'fails',
};

/** What was decided about a place for a tank. */
export const CHOICE_WORDS: Readonly<Record<TankPoint['standing'], string>> = {
  kept: 'chosen',
  candidate: 'maybe',
  'set-aside': 'ruled out',
};
