import { describe, expect, test } from 'vitest';
import { againstDoubtful, type Spread, spreadOf } from '../../src/evaluation/statistics/compare.ts';

/** 90th percentile of the standard normal distribution. Tables. */
const Z90 = 1.2815515655;

describe('a number held against a limit that is not known for sure', () => {
  test('reaches it as often as the difference of two normal numbers is above nothing', () => {
    // x is 10 ± 3, the limit 8 ± 4 (standard deviations): the difference 2 ± 5. Φ(0.4) = 0.655422, tables.
    const spread = spreadOf({ low: 10 - 3 * Z90, likely: 10, high: 10 + 3 * Z90 });
    expect(againstDoubtful(spread, 4 * Z90).chanceAtLeast(8)).toBeCloseTo(0.655422, 2);
    // A number without doubt: Φ(0.5) = 0.691462.
    const sure = againstDoubtful(spreadOf({ low: 10, likely: 10, high: 10 }), 4 * Z90);
    expect(sure.chanceAtLeast(8)).toBeCloseTo(0.691462, 5);
    expect(sure.estimate).toEqual({ low: 10, likely: 10, high: 10 });
  });

  test('does not reach it in the draws in which a supply line brings nothing at all', () => {
    // Three draws of ten bring nothing, the others 500 and more; the pump needs 14, give or take 2. Closed form: 0.7.
    const lumped: Spread = {
      estimate: { low: 0, likely: 700, high: 1300 },
      chanceAtLeast: (limit) => (limit <= 0 ? 1 : limit <= 500 ? 0.7 : 0.35),
    };
    expect(againstDoubtful(lumped, 2).chanceAtLeast(14)).toBeCloseTo(0.7, 9);
  });
});
