import { describe, expect, test } from 'vitest';
import { normalChance, normalQuantile, Z90, Z975 } from '../../src/evaluation/statistics/normal.ts';

/** Abramowitz & Stegun, Handbook of Mathematical Functions, 1964, tables 26.1 (P) and 26.5 (quantiles). */
const TABLE = [
  [0, 0.5],
  [0.5, 0.69146246],
  [1, 0.84134475],
  [1.5, 0.9331928],
  [2, 0.97724987],
  [3, 0.9986501],
] as const;

describe('the normal distribution', () => {
  test.each(TABLE)('a standard normal variable stays below %f with the printed chance', (z, p) => {
    expect(normalChance(z)).toBeCloseTo(p, 6);
    expect(normalChance(-z)).toBeCloseTo(1 - p, 6);
    expect(normalQuantile(p)).toBeCloseTo(z, 4);
  });

  test('the printed 90th and 97.5th percentiles', () => {
    expect(normalQuantile(0.9)).toBeCloseTo(1.28155, 5);
    expect(Z90).toBeCloseTo(1.28155, 5);
    expect(normalQuantile(0.975)).toBeCloseTo(1.95996, 5);
    expect(Z975).toBeCloseTo(1.95996, 5);
  });

  test('quantile and chance undo each other far into the tails', () => {
    for (const p of [1e-9, 1e-6, 1e-3, 0.02, 0.3, 0.7, 0.98, 0.999]) {
      expect(normalChance(normalQuantile(p)) / p).toBeCloseTo(1, 4);
    }
  });
});
