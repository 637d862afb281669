import type { Answer } from '../../src/evaluation/result/evaluation.ts';

/** The answer for a plan of which nothing can be said yet. */
export const noAnswer: Answer = {
  state: 'incomplete',
  missing: ['delivery'],
  runs: { verdict: null, chance: null, because: null },
  arrives: {
    about: null,
    verdict: null,
    chance: null,
    perDay: null,
    ifRunningPerDay: null,
    needPerDay: null,
    because: null,
  },
  first: null,
};
