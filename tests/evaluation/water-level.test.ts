import { expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import type { Plan } from '../../src/plan/model/plan.ts';
import { madeGround, perfect } from './made-ground.ts';
import { route, workingHeights, workingLengths, workingPlan } from './made-plan.ts';

/** The working plan with its drive pipe straight from the spring, whose water stands so high above the ground there. */
function fallFrom(waterLevel: number): number {
  const plan: Plan = {
    ...workingPlan,
    points: workingPlan.points.flatMap((p) =>
      p.role === 'standpipe' ? [] : [p.role === 'source' ? { ...p, waterLevel } : p],
    ),
    routes: [
      route('drive', 'drive', 'spring', 'ram', 'steel'),
      ...workingPlan.routes.filter(({ role }) => role !== 'supply' && role !== 'drive'),
    ],
  };
  const ground = madeGround(plan, { heights: workingHeights, lengths: workingLengths, accuracy: perfect });
  return evaluate(plan, ground).pump?.fall.likely ?? Number.NaN;
}

test('the fall is counted from the water of the spring, not from the ground under it', () => {
  // Ground of 104.5 m at the spring and 100 m at the pump, whose waste valve stands 0.2 m above it.
  expect(fallFrom(0)).toBeCloseTo(4.3, 9);
  expect(fallFrom(0.4)).toBeCloseTo(4.7, 9);
  expect(fallFrom(-0.3)).toBeCloseTo(4.0, 9);
});
