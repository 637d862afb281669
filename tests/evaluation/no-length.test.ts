import { describe, expect, test } from 'vitest';
import { evaluateAtRest } from '../../src/evaluation/evaluate/evaluate.ts';
import { quotient, spreadOf } from '../../src/evaluation/statistics/compare.ts';
import type { PlanRoute } from '../../src/plan/model/plan.ts';
import { findingWords } from '../../src/report/findings/finding-words.ts';
import { lidar, madeGround } from './made-ground.ts';
import { workingHeights, workingLengths, workingPlan } from './made-plan.ts';

/** Paths of the numbers in a result that are none. */
function notNumbers(value: unknown, path = ''): readonly string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, part]) => notNumbers(part, `${path}.${key}`));
}

const ROLES: readonly PlanRoute['role'][] = ['supply', 'drive', 'delivery', 'gravity'];

describe('a line whose ends are one place', () => {
  test.each(ROLES)('gives finite numbers and readable words where it is the %s', (role) => {
    const { heights, lengths } = { heights: workingHeights, lengths: { ...workingLengths, [role]: 0 } };
    const result = evaluateAtRest(workingPlan, madeGround(workingPlan, { heights, lengths, accuracy: lidar }));
    expect(notNumbers(result)).toEqual([]);
    for (const finding of result.findings) {
      for (const units of ['metric', 'us'] as const) {
        const { sentence, remedy } = findingWords(finding, { units, nameOf: (id) => id });
        expect(`${sentence} ${remedy}`).not.toMatch(/NaN|Infinity|undefined/);
      }
    }
  });

  test('has as many bores of length as it has metres', () => {
    const bores = quotient(
      spreadOf({ low: 0, likely: 0, high: 0.6 }),
      spreadOf({ low: 0.039, likely: 0.04, high: 0.041 }),
    );
    expect(bores.estimate).toEqual({ low: 0, likely: 0, high: expect.closeTo(15, 9) });
    expect(bores.chanceAtLeast(150)).toBeCloseTo(0, 9);
  });
});
