import { describe, expect, test } from 'vitest';
import { differencesInDraws, turned } from '../../src/evaluation/evaluate/compare-drawn.ts';
import { evaluateDrawn } from '../../src/evaluation/evaluate/evaluate.ts';
import type { Plan } from '../../src/plan/model/plan.ts';
import { lidar, madeGround } from './made-ground.ts';
import { workingHeights, workingLengths, workingPlan } from './made-plan.ts';

const ORDER = { count: 1024, seed: 1 };
const ground = madeGround(workingPlan, { heights: workingHeights, lengths: workingLengths, accuracy: lidar });

const valveAt = (height: number): Plan => ({
  ...workingPlan,
  points: workingPlan.points.map((p) => (p.role === 'pump' ? { ...p, wasteValveHeight: height } : p)),
});

function differences(one: Plan, other: Plan) {
  const steps = differencesInDraws({ plan: one, ground }, { plan: other, ground }, ORDER);
  for (let step = steps.next(); ; step = steps.next()) if (step.done) return step.value;
}

describe('two plans drawn together', () => {
  test('differ in nothing when they are one plan', () => {
    const found = differences(workingPlan, workingPlan);
    expect(found?.size).toBeGreaterThan(8);
    // A place named twice is one to rounding.
    for (const [key, { low, high }] of found ?? []) {
      expect(Math.abs(low), key).toBeLessThan(1e-7);
      expect(Math.abs(high), key).toBeLessThan(1e-7);
    }
  });

  test('a valve that is set 0.5 m lower has 0.5 m more fall for sure, although the fall itself is doubtful', () => {
    const [high, low] = [valveAt(0.7), valveAt(0.2)];
    const found = differences(high, low);
    const fall = evaluateDrawn(high, ground, ORDER).pump?.fallAtRest;
    // The ground's doubt is many centimetres wide and cancels wholly: it is the same ground.
    expect((fall?.high ?? 0) - (fall?.low ?? 0)).toBeGreaterThan(0.1);
    for (const end of ['low', 'likely', 'high'] as const) {
      expect(found?.get('fall-at-rest')?.[end]).toBeCloseTo(0.5, 9);
      expect(found?.get('tank lift')?.[end]).toBeCloseTo(0.5, 9);
    }
  });

  test('what the lower one brings more is sure, although the spreads of the two meet', () => {
    const [high, low] = [valveAt(0.7), valveAt(0.2)];
    const [a, b] = [high, low].map((plan) => evaluateDrawn(plan, ground, ORDER).tanks[0]?.line?.deliveryPerDay);
    expect(b?.low).toBeLessThan(a?.high ?? 0);
    expect(differences(high, low)?.get('tank arrives')?.low).toBeGreaterThan(0);
  });

  test('a source that was read anew has a doubt of its own', () => {
    const again: Plan = {
      ...workingPlan,
      yieldReadings: workingPlan.yieldReadings.map((each) =>
        each.kind === 'stated' ? { ...each, flow: each.flow * 1.000001 } : { ...each, volume: each.volume * 1.000001 },
      ),
    };
    const arrives = differences(workingPlan, again)?.get('tank arrives');
    expect(arrives?.low).toBeLessThan(0);
    expect(arrives?.high).toBeGreaterThan(0);
  });

  test('nothing is drawn together where the two weigh different readings of the ground', () => {
    const levelled: Plan = {
      ...workingPlan,
      measurements: [{ kind: 'height', point: 'pump', height: 100, plusMinus: 0.1 }],
    };
    expect(differences(workingPlan, levelled)).toBeNull();
  });

  test('the other way round the difference has the other sign', () => {
    const found = differences(valveAt(0.7), valveAt(0.2));
    expect(found && turned(found).get('fall-at-rest')?.likely).toBeCloseTo(-0.5, 9);
  });
});
