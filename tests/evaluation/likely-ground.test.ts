import { describe, expect, test } from 'vitest';
import { evaluateAtRest } from '../../src/evaluation/evaluate/evaluate.ts';
import { likelyGround } from '../../src/evaluation/evaluate/likely-ground.ts';
import { coarse, lidar, madeGround } from './made-ground.ts';
import { workingHeights, workingLengths, workingPlan } from './made-plan.ts';

/** Ground whose cells hide a metre of what it does, all around. */
function ground(accuracy = coarse) {
  const made = madeGround(workingPlan, { heights: workingHeights, lengths: workingLengths, accuracy });
  const points = new Map([...made.points].map(([id, point]) => [id, { ...point, averaging: 1 }]));
  return { ...made, points };
}
const likely = (accuracy = coarse, plan = workingPlan) => likelyGround(plan, ground(accuracy), accuracy);
const tankId = workingPlan.points.find(({ role }) => role === 'tank')?.id ?? '';
const pumpId = workingPlan.points.find(({ role }) => role === 'pump')?.id ?? '';

describe('ground that large cells flatten', () => {
  test('was taken as it stood: pumps stand lower and tanks higher, so that a lift is larger than the file says', () => {
    const before = ground();
    const after = likely();
    expect(after.points.get(pumpId)?.ground).toBeLessThan((before.points.get(pumpId)?.ground ?? 0) - 1);
    expect(after.points.get(tankId)?.ground).toBeGreaterThan((before.points.get(tankId)?.ground ?? 0) + 0.8);
    const lift = (g: typeof before) => evaluateAtRest(workingPlan, g).tanks[0]?.lift.likely ?? 0;
    expect(lift(after) - lift(before)).toBeGreaterThan(1.8);
  });

  test('keeps a line together with the points at its ends, and its middle where the file has it', () => {
    const before = ground();
    const after = likely();
    for (const { id, from } of workingPlan.routes) {
      const [was, is] = [before.lines.get(id), after.lines.get(id)];
      if (!was || !is) throw new Error(id);
      const moved = (after.points.get(from)?.ground ?? 0) - (before.points.get(from)?.ground ?? 0);
      const reach = 1.65 * coarse.cell;
      const length = was.at.at(-1) ?? 0;
      if (length > 2 * reach) {
        expect((is.ground[0] ?? 0) - (was.ground[0] ?? 0)).toBeCloseTo(moved, 9);
        const middle = was.at.findIndex((at) => at > length / 2);
        expect(is.ground[middle]).toBe(was.ground[middle]);
      }
    }
  });

  test('stays as it is on lidar of a metre, and under constants that were typed in', () => {
    expect(likely(lidar).points.get(pumpId)).toEqual(ground(lidar).points.get(pumpId));
    const { nugget, near, nearRange, far, farRange, placement } = coarse;
    const constants = { nugget, near, nearRange, far, farRange, placement };
    const plan = { ...workingPlan, terrain: { files: [], accuracy: null, constants } };
    expect(likely(coarse, plan).points.get(pumpId)).toEqual(ground().points.get(pumpId));
  });

  test('is as doubtful as what is left once that is taken off', () => {
    const spread = (g: ReturnType<typeof ground>) => {
      const lift = evaluateAtRest(workingPlan, g).tanks[0]?.lift;
      return lift ? lift.high - lift.low : 0;
    };
    expect(spread(likely())).toBeGreaterThan(spread(ground()));
  });
});
