import { describe, expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import { calibratedBy } from '../../src/evaluation/model/measured-runs.ts';
import { sheetBehaviour } from '../../src/evaluation/model/pump-behaviour.ts';
import type { MeasuredRun, Plan, PumpSheet } from '../../src/plan/model/plan.ts';
import { CASES } from './finding-cases.ts';
import { lidar, madeGround } from './made-ground.ts';
import { litresPerMinute, sheet, workingHeights, workingLengths, workingPlan } from './made-plan.ts';

const run = (efficiency: number, change: Partial<MeasuredRun> = {}): MeasuredRun => {
  const base = { driveFlow: litresPerMinute(20), fall: 4, deliveryHead: 25, ...change };
  return { ...base, delivery: (efficiency * base.driveFlow * base.fall) / base.deliveryHead };
};
const curve: PumpSheet = {
  ...sheet,
  efficiencyCurve: [
    { headOverFall: 4, efficiency: 0.65 },
    { headOverFall: 12, efficiency: 0.3 },
  ],
};
const at = (headOverFall: number, flow = 20) => ({ flow: litresPerMinute(flow), fall: 4, head: 4 * headOverFall });
const width = (one: ReturnType<typeof sheetBehaviour>, where: ReturnType<typeof at>) =>
  Math.log(one.efficiency(1, where) / one.efficiency(-1, where));

describe('a measured run', () => {
  test('is met at its own point', () => {
    const pump = sheetBehaviour({ ...curve, measured: run(0.55) });
    expect(pump.efficiency(0, at(6.25))).toBeCloseTo(0.55, 9);
    const good = sheetBehaviour({ ...sheet, measured: run(0.85) });
    expect(good.efficiency(0, at(6.25))).toBeCloseTo(0.85, 9);
  });

  test('is met by a ram described by its parts too', () => {
    const made = CASES['air-ripple'].holds?.plan ?? CASES['beat-slow'].holds?.plan;
    if (made?.pump?.kind !== 'ram') throw new Error('found no ram, expected one by its parts');
    const ground = madeGround(made, { heights: workingHeights, lengths: workingLengths });
    const before = evaluate(made, ground);
    const line = before.tanks[0]?.line;
    const driveFlow = before.pump?.driveFlow?.likely ?? 0;
    const head = line?.governingLift.likely ?? 0;
    const fall = before.pump?.fall.likely ?? 0;
    for (const efficiency of [0.35, 0.8]) {
      const measured = { driveFlow, fall, deliveryHead: head, delivery: (efficiency * driveFlow * fall) / head };
      const after = evaluate({ ...made, pump: { ...made.pump, measured } }, ground);
      expect(after.pump?.efficiency.likely).toBeCloseTo(efficiency, 4);
    }
  });

  test('scales the user’s own curve and does not replace it', () => {
    const pump = sheetBehaviour({ ...curve, measured: run(0.5) });
    // The curve says 0.55156 at 6.25 and 0.30 at 12: straight between its points, worked by hand.
    const onCurve = 0.65 + ((6.25 - 4) / 8) * (0.3 - 0.65);
    expect(pump.efficiency(0, at(12))).toBeCloseTo((0.3 * 0.5) / onCurve, 9);
  });

  test('never makes the pump less known, least doubt at its own point', () => {
    const before = sheetBehaviour(sheet);
    const after = sheetBehaviour({ ...sheet, measured: run(0.5) });
    for (const h of [2, 4, 6.25, 10, 20]) expect(width(after, at(h))).toBeLessThan(width(before, at(h)));
    expect(width(after, at(6.25))).toBeLessThan(width(after, at(12)));
    expect(width(after, at(6.25))).toBeLessThan(width(after, at(6.25, 10)));
  });

  test('of a small ± is trusted more', () => {
    const fine = sheetBehaviour({ ...sheet, measured: run(0.5, { plusMinus: 0.03 }) });
    const rough = sheetBehaviour({ ...sheet, measured: run(0.5, { plusMinus: 0.3 }) });
    expect(width(fine, at(6.25))).toBeLessThan(width(rough, at(6.25)));
    // 1/s² = 1/s₀² + 1/s₁²: ± 3 % against a band of 0.35 to 0.65 about 0.5 leaves the run's own doubt all but alone.
    expect(width(fine, at(6.25))).toBeCloseTo((2 * 0.03) / 1.96, 3);
  });

  test('beside a second at the same point counts as their geometric mean', () => {
    const pump = sheetBehaviour({ ...sheet, measured: run(0.4), moreRuns: [run(0.6)] });
    expect(pump.efficiency(0, at(6.25))).toBeCloseTo(Math.sqrt(0.4 * 0.6), 9);
  });

  test.each([
    ['intake', run(0.5, { driveFlow: litresPerMinute(40) })],
    ['head', run(0.5, { deliveryHead: 3.5 })],
    ['efficiency', run(0.97)],
  ] as const)('that cannot be of this pump (%s) is left out and told', (fault, wrong) => {
    const { band, faults, fitted } = calibratedBy(
      () => ({ low: 0.35, likely: 0.5, high: 0.65 }),
      [wrong],
      sheet.intakeMost,
    );
    expect([faults, fitted]).toEqual([[fault], 0]);
    expect(band(at(6.25)).likely).toBe(0.5);
  });

  test('takes the pump off the list of what to measure', () => {
    const asked = (plan: Plan) =>
      evaluate(
        plan,
        madeGround(plan, { heights: workingHeights, lengths: workingLengths, accuracy: lidar }),
      ).measureFirst.map(({ quantity }) => quantity);
    expect(asked(workingPlan)).toContain('pump-efficiency');
    expect(asked({ ...workingPlan, pump: { ...sheet, measured: run(0.5) } })).not.toContain('pump-efficiency');
  });
});
