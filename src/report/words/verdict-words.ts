import type { Verdict } from '../../evaluation/statistics/estimate.ts';

/** The three answers of a comparison in a word or two. */
export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  holds: 'holds',
  measure: 'measure',
  fails: 'fails',
};

/** The answer for the whole plan in a sentence; null when there is nothing to judge yet. */
export function planSentence(verdict: Verdict | null): string {
  switch (verdict) {
    case 'holds':
      return 'It will run as drawn.';
    case 'measure':
      return 'It may run; measure before you dig.';
    case 'fails':
      return 'It will not run as drawn.';
    case null:
      return 'Not enough is drawn to say whether it runs.';
  }
}
