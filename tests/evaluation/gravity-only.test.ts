import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { evaluate, evaluateAtRest } from '../../src/evaluation/evaluate/evaluate.ts';
import { pipeChoices } from '../../src/evaluation/evaluate/pipe-choices.ts';
import { classStretches } from '../../src/evaluation/evaluate/pipe-classes.ts';
import type { Plan } from '../../src/plan/model/plan.ts';
import { lidar, madeGround } from './made-ground.ts';
import { route, workingHeights, workingLengths, workingPlan } from './made-plan.ts';

const withPoints = (roles: readonly string[]): Plan => ({
  ...workingPlan,
  points: workingPlan.points.filter(({ role }) => roles.includes(role)),
  routes: workingPlan.routes.filter(({ id }) => id === 'gravity'),
  pump: null,
  yieldReadings: [],
});
const made = { heights: workingHeights, lengths: workingLengths, accuracy: lidar };
const evaluated = (plan: Plan, heights = workingHeights) => evaluate(plan, madeGround(plan, { ...made, heights }));

const tankAlone = withPoints(['tank', 'trough']);
const fromSource: Plan = {
  ...withPoints(['source', 'trough']),
  routes: [route('gravity', 'gravity', 'spring', 'trough', 'pe25')],
};

/** Paths of the numbers in a result that are none. */
function notNumbers(value: unknown, path = ''): readonly string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, part]) => notNumbers(part, `${path}.${key}`));
}

describe('a plan without a pump', () => {
  test('has the flow of its gravity line that it has beside a pump', () => {
    // The same line in the whole plan is held to EPANET in reference.test.ts.
    const whole = evaluated(workingPlan);
    const alone = evaluated(tankAlone);
    expect(alone.troughs[0]?.flow?.likely).toBe(whole.troughs[0]?.flow?.likely);
    expect(alone.troughs[0]?.flow?.low).toBeCloseTo(whole.troughs[0]?.flow?.low ?? 0, 9);
    expect(alone.troughs[0]?.stillHead?.likely).toBeCloseTo(4.6, 9);
    expect(alone.lines[0]).toEqual(whole.lines.find(({ id }) => id === 'gravity'));
    expect([alone.pump, alone.standpipe, alone.tanks]).toEqual([null, null, []]);
  });

  test('says how far below the source a trough lies when there is one, and nothing of it when there is none', () => {
    const heights = { ...workingHeights, spring: 130 };
    // 130 m at the spring, 118 m and 0.6 m at the float valve.
    expect(evaluated(fromSource, heights).troughs[0]?.belowSource?.likely).toBeCloseTo(11.4, 9);
    expect(evaluated(tankAlone).troughs[0]?.belowSource).toBeNull();
  });

  test('is judged by what the herd needs and by the pressure its pipe stands, and by nothing of a pump', () => {
    expect(notNumbers({ one: { other: Number.NaN } })).toEqual(['.one.other']);
    expect(evaluated({ ...tankAlone, herd: [] }).verdict).toBeNull();
    expect(evaluated(tankAlone).verdict).toBe('holds');
    expect(evaluated(tankAlone, { ...workingHeights, trough: 130 }).verdict).toBe('fails');
    const codes = evaluated(tankAlone).findings.map(({ code }) => code);
    expect(codes.toSorted()).toEqual(['pipe-pressure', 'trough-dry', 'trough-first-hour']);
  });

  test('has sizes of pipe to choose from, the larger carrying more, and the class that stands the pressure', () => {
    const ground = madeGround(tankAlone, made);
    const flows = pipeChoices(tankAlone, ground, 'gravity').choices.map(({ flow }) => flow ?? Number.NaN);
    expect(flows.length).toBeGreaterThan(3);
    expect(flows).toEqual(flows.toSorted((a, b) => a - b));
    expect(classStretches(tankAlone, ground, 'gravity')?.length).toBeGreaterThan(0);
  });

  test('brings nothing to a trough that lies above what feeds it, whatever the heights are', () => {
    const height = fc.double({ min: -50, max: 3000, noNaN: true });
    fc.assert(
      fc.property(height, height, (tank, trough) => {
        const plan = tankAlone;
        const result = evaluateAtRest(
          plan,
          madeGround(plan, { ...made, heights: { ...workingHeights, tank, trough } }),
        );
        const flow = result.troughs[0]?.flow?.likely ?? Number.NaN;
        // 0.2 m at the tank's outlet, 0.6 m at the float valve.
        expect(flow > 0).toBe(tank + 0.2 > trough + 0.6);
        expect(notNumbers(result)).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });
});
