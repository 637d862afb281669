import { describe, expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import type { Plan } from '../../src/plan/model/plan.ts';
import { madeGround, perfect } from './made-ground.ts';
import { litresPerMinute, sheet, workingHeights, workingLengths, workingPlan } from './made-plan.ts';

/** Half widths of the normal distribution in deviations: 95 % between both, 90 % below. Printed tables. */
const BOTH_95 = 1.96;
const BELOW_90 = 1.2816;

/** What to measure of the source when it was read as so many L/min ± 2 and the pump wants at least 10. */
function sourceEntry(litres: number) {
  const plan: Plan = {
    ...workingPlan,
    pump: { ...sheet, intakeLeast: litresPerMinute(10), intakeMost: litresPerMinute(40) },
    dryShare: 1,
    yieldReadings: [{ kind: 'stated', flow: litresPerMinute(litres), plusMinus: litresPerMinute(2) }],
  };
  const ground = madeGround(plan, { heights: workingHeights, lengths: workingLengths, accuracy: perfect });
  const { findings, measureFirst } = evaluate(plan, ground);
  const short = findings.find(({ code }) => code === 'source-short');
  return { short, entry: measureFirst.find(({ quantity }) => quantity === 'source-yield') };
}

describe('how well to measure a source', () => {
  // 2 L/min hold 95 times of a hundred: 10 % of the readings lie more than 1.31 L/min below.
  const reach = (2 / BOTH_95) * BELOW_90;

  test.each([0.6, 0.75, 0.9])(
    'half of what the reading lies off the limit, at %f of the way to being sure',
    (share) => {
      // Half the distance, as a 95 % figure: a reading so good that falls where the last one fell is sure of its side.
      const { short, entry } = sourceEntry(10 + share * reach);
      expect(short?.verdict).toBe('measure');
      expect(entry?.settles).toContain('source-short');
      expect((entry?.aim ?? 0) * 60_000).toBeCloseTo((share * 2) / 2, 2);
    },
  );

  test('no better than to a quarter of the doubt there is', () => {
    expect((sourceEntry(9.95).entry?.aim ?? 0) * 60_000).toBeCloseTo(2 / 4, 3);
  });

  test('no better than a bucket and a watch can, even of a spring that was read to a hair', () => {
    // Common practice, no source: several fillings of a bucket are right to a twentieth.
    for (const litres of [10.02, 10.5, 11]) {
      const { entry } = sourceEntry(litres);
      if (entry?.aim != null) expect(entry.aim * 60_000).toBeGreaterThanOrEqual(0.05 * litres - 1e-9);
    }
  });

  test('says what to expect: eight times of ten within its ends', () => {
    const { entry } = sourceEntry(11);
    expect((entry?.expected?.likely ?? 0) * 60_000).toBeCloseTo(11, 6);
    expect((entry?.expected?.low ?? 0) * 60_000).toBeCloseTo(11 - reach, 3);
    expect((entry?.expected?.high ?? 0) * 60_000).toBeCloseTo(11 + reach, 3);
  });
});
