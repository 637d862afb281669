import type { Verdict } from '../../evaluation/statistics/estimate.ts';

/** The three answers of a comparison in a word or two. */
export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  holds: 'holds',
  measure: 'measure',
  fails: 'fails',
};
