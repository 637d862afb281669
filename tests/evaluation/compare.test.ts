import { describe, expect, test } from 'vitest';
import { compare, exactly, spreadOf } from '../../src/evaluation/statistics/compare.ts';

const confidence = 0.9;

describe('a sure number against a limit', () => {
  test.each([
    ['at-most', 4.999, 'holds'],
    ['at-most', 5, 'holds'],
    ['at-most', 5.001, 'fails'],
    ['at-least', 4.999, 'fails'],
    ['at-least', 5, 'holds'],
    ['at-least', 5.001, 'holds'],
  ] as const)('of 5, %s, is judged at %d: %s', (side, value, verdict) => {
    expect(compare(exactly(value), { limit: 5, side, confidence }).verdict).toBe(verdict);
  });

  test('on the limit holds for sure, both ways', () => {
    for (const side of ['at-most', 'at-least'] as const)
      expect(compare(exactly(5), { limit: 5, side, confidence })).toEqual({ verdict: 'holds', chance: 1 });
  });
});

describe('an unsure number', () => {
  // Tables of the normal distribution: 10 % lie beyond 1.2816 deviations, 30.85 % beyond 0.5.
  const spread = spreadOf({ low: 10 - 1.2816, likely: 10, high: 10 + 1.2816 });

  test('reaches a limit with the chance of the normal distribution', () => {
    expect(compare(spread, { limit: 10.5, side: 'at-least', confidence }).chance).toBeCloseTo(0.3085, 4);
    expect(compare(spread, { limit: 10.5, side: 'at-most', confidence }).chance).toBeCloseTo(0.6915, 4);
  });

  test.each([
    [8.7, 'holds'],
    [8.73, 'measure'],
    [11.27, 'measure'],
    [11.3, 'fails'],
  ] as const)('against at least %d: %s', (limit, verdict) => {
    expect(compare(spread, { limit, side: 'at-least', confidence }).verdict).toBe(verdict);
  });
});
