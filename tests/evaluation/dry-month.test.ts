import { describe, expect, test } from 'vitest';
import type { Plan, PumpSheet } from '../../src/plan/model/plan.ts';
import { madeGround } from './made-ground.ts';
import { litresPerMinute, sheet, workingHeights, workingLengths, workingPlan } from './made-plan.ts';
import { yearOf } from './year-of.ts';

/** A pump that runs on 10 to 12 L/min and on nothing else. */
const narrow: PumpSheet = {
  ...sheet,
  intakeLeast: litresPerMinute(10),
  intakeMost: litresPerMinute(12),
  efficiency: { low: 0.5, likely: 0.5, high: 0.5 },
};

/** What arrives a day in a month in which the source gives so many litres a minute. */
function arrives(count: number, litres: number): number {
  const flow = 40;
  const plan: Plan = {
    ...workingPlan,
    pump: { ...narrow, count },
    dryShare: 1,
    yieldReadings: [{ kind: 'stated', flow: litresPerMinute(flow), plusMinus: litresPerMinute(0.1) }],
    year: Array.from({ length: 12 }, () => ({
      season: 'summer' as const,
      airTemperature: null,
      sourceShare: litres / flow,
    })),
  };
  const ground = madeGround(plan, { heights: workingHeights, lengths: workingLengths });
  return yearOf(plan, ground)?.[0]?.months[0]?.deliveryPerDay ?? Number.NaN;
}

describe('three pumps side by side in a dry month', () => {
  test('run as two when the water feeds two, and leave what two cannot take', () => {
    // 28 L/min: three want 30. Two take at most 24.
    expect(arrives(3, 28) / arrives(2, 24)).toBeCloseTo(1, 1);
    expect(arrives(3, 28) / arrives(1, 28)).toBeGreaterThan(1.5);
    // 22 L/min: two take it all.
    expect(arrives(3, 22)).toBeCloseTo(arrives(2, 22), 9);
    expect(arrives(3, 22)).toBeLessThan(arrives(3, 28));
  });

  test('run as one when the water feeds one, and leave what one cannot take', () => {
    // 15 L/min: two want 20. One takes at most 12.
    expect(arrives(3, 15) / arrives(1, 12)).toBeCloseTo(1, 1);
    expect(arrives(3, 15)).toBeGreaterThan(0);
  });

  test('stand still when the water feeds none', () => {
    expect(arrives(3, 9.9)).toBe(0);
    expect(arrives(3, 10.1)).toBeGreaterThan(0);
  });
});
