import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { evaluate, evaluateDrawn, evaluateInDraws } from '../../src/evaluation/evaluate/evaluate.ts';
import type { Evaluation } from '../../src/evaluation/result/evaluation.ts';
import type { Plan } from '../../src/plan/model/plan.ts';
import { coarse, lidar, madeGround, perfect } from './made-ground.ts';
import { workingHeights, workingLengths, workingPlan } from './made-plan.ts';

const RUNS = { numRuns: 60, seed: 20 };

const metres = (min: number, max: number) => fc.double({ min, max, noNaN: true });

function at(change: { heights?: object; lengths?: object; plan?: Plan; accuracy?: typeof lidar }): Evaluation {
  const plan = change.plan ?? workingPlan;
  return evaluate(
    plan,
    madeGround(plan, {
      heights: { ...workingHeights, ...change.heights },
      lengths: { ...workingLengths, ...change.lengths },
      accuracy: change.accuracy ?? perfect,
    }),
  );
}

const delivery = (e: Evaluation) => (e.tanks[0]?.line?.ifRunningPerDay?.likely ?? 0) / 86_400;

describe('laws of a system', () => {
  test('more fall never delivers less', () => {
    fc.assert(
      fc.property(metres(104.1, 112), metres(0, 3), (spring, more) => {
        expect(delivery(at({ heights: { spring: spring + more } }))).toBeGreaterThanOrEqual(
          delivery(at({ heights: { spring } })) - 1e-12,
        );
      }),
      RUNS,
    );
  });

  test('a higher tank or a longer line never gets more', () => {
    fc.assert(
      fc.property(metres(110, 160), metres(0, 20), metres(50, 900), metres(0, 500), (tank, up, length, longer) => {
        const near = delivery(at({ heights: { tank }, lengths: { delivery: length } }));
        expect(delivery(at({ heights: { tank: tank + up }, lengths: { delivery: length } }))).toBeLessThanOrEqual(
          near + 1e-12,
        );
        expect(delivery(at({ heights: { tank }, lengths: { delivery: length + longer } }))).toBeLessThanOrEqual(
          near + 1e-12,
        );
      }),
      RUNS,
    );
  });

  test('the delivery never carries more work away than the fall puts in', () => {
    fc.assert(
      fc.property(metres(104.1, 112), metres(107, 180), (spring, tank) => {
        const e = at({ heights: { spring, tank } });
        const line = e.tanks[0]?.line;
        const out = delivery(e) * ((line?.governingLift.likely ?? 0) + (line?.friction ?? 0));
        expect(out).toBeLessThanOrEqual((e.pump?.driveFlow?.likely ?? 0) * (e.pump?.fall.likely ?? 0) * (1 + 1e-9));
        // The efficiency of its sheet, and less only near the reach of the pressure wave.
        const share = out / ((e.pump?.driveFlow?.likely ?? 0) * (e.pump?.fall.likely ?? 0));
        expect(share).toBeLessThanOrEqual(0.5 + 1e-6);
        if (tank < 130) expect(share).toBeCloseTo(0.5, 6);
      }),
      RUNS,
    );
  });

  test('the same valley a hundred metres higher gives the same answers', () => {
    const raised = Object.fromEntries(Object.entries(workingHeights).map(([id, z]) => [id, z + 100]));
    const [low, high] = [at({ accuracy: lidar }), at({ accuracy: lidar, heights: raised })];
    expect(high.tanks[0]?.line?.delivery?.high).toBeCloseTo(low.tanks[0]?.line?.delivery?.high ?? 0, 10);
    expect(high.findings.map((f) => [f.code, f.verdict])).toEqual(low.findings.map((f) => [f.code, f.verdict]));
  });

  test('low, likely and high stand in order, and a better DEM brings them together', () => {
    const width = (e: Evaluation) => (e.pump?.fallAtRest.high ?? 0) - (e.pump?.fallAtRest.low ?? 0);
    const [exact, fine, rough] = [at({}), at({ accuracy: lidar }), at({ accuracy: coarse })];
    expect(width(exact)).toBeCloseTo(0, 9);
    expect(width(fine)).toBeGreaterThan(0);
    expect(width(rough)).toBeGreaterThan(width(fine));
    for (const f of [...fine.findings, ...rough.findings]) {
      if (f.value === null) continue;
      expect(f.value.low).toBeLessThanOrEqual(f.value.likely);
      expect(f.value.likely).toBeLessThanOrEqual(f.value.high);
    }
  });
});

describe('a level taken on site', () => {
  const levelled = (rise: number, plusMinus: number): Plan => ({
    ...workingPlan,
    measurements: [{ kind: 'difference', from: 'spring', to: 'ram', rise, plusMinus }],
  });

  test('outweighs a coarse DEM, with its own spread', () => {
    const e = at({ plan: levelled(-3.2, 0.03), accuracy: coarse });
    // Water at ground level at the spring; the waste valve 0.2 m above ground.
    expect(e.pump?.fallAtRest.likely).toBeCloseTo(3, 3);
    expect((e.pump?.fallAtRest.high ?? 0) - 3).toBeCloseTo((0.03 * 1.2815515655) / 1.959963985, 3);
  });

  test('takes the fall off the list of what to measure', () => {
    const before = at({ accuracy: coarse }).measureFirst.map((m) => m.quantity);
    const after = at({ plan: levelled(-4.5, 0.01), accuracy: coarse }).measureFirst.map((m) => m.quantity);
    expect(before[0]).toBe('fall');
    expect(after).not.toContain('fall');
  });

  test('a chain of levels adds its errors by their squares', () => {
    const plan: Plan = {
      ...workingPlan,
      measurements: [
        { kind: 'difference', from: 'spring', to: 'standpipe', rise: -1.1, plusMinus: 0.03 },
        { kind: 'difference', from: 'standpipe', to: 'ram', rise: -3.4, plusMinus: 0.04 },
      ],
    };
    const e = at({ plan, accuracy: coarse });
    expect((e.pump?.fallAtRest.high ?? 0) - (e.pump?.fallAtRest.likely ?? 0)).toBeCloseTo(
      (0.05 * 1.2815515655) / 1.959963985,
      4,
    );
  });
});

describe('draws and the first-order estimate', () => {
  const both = (accuracy: typeof lidar) => {
    const ground = madeGround(workingPlan, { heights: workingHeights, lengths: workingLengths, accuracy });
    return [evaluate(workingPlan, ground), evaluateDrawn(workingPlan, ground, { count: 4096, seed: 5 })] as const;
  };

  test('agree within 3 % of the value on lidar', () => {
    const [quick, drawn] = both(lidar);
    const [a, b] = [quick.tanks[0]?.line?.deliveryPerDay, drawn?.tanks[0]?.line?.deliveryPerDay];
    for (const side of ['low', 'likely', 'high'] as const) {
      expect(Math.abs((a?.[side] ?? 0) / (b?.[side] ?? 1) - 1)).toBeLessThan(0.03);
    }
    quick.findings.forEach((f, i) => {
      expect(Math.abs(f.chance - (drawn?.findings[i]?.chance ?? 0)), f.code).toBeLessThan(0.02);
    });
  });

  test('the middle of what follows the ground in proportion is where it is without doubt, even on a coarse DEM', () => {
    const [quick, drawn] = both(coarse);
    expect(drawn?.pump?.fallAtRest.likely).toBeCloseTo(quick.pump?.fallAtRest.likely ?? 0, 2);
    expect(drawn?.tanks[0]?.lift.likely).toBeCloseTo(quick.tanks[0]?.lift.likely ?? 0, 2);
  });

  test('a seed gives the same answer again, with a stop every 256 draws', () => {
    const ground = madeGround(workingPlan, { heights: workingHeights, lengths: workingLengths, accuracy: lidar });
    const order = { count: 1024, seed: 9 };
    expect(evaluateDrawn(workingPlan, ground, order)).toEqual(evaluateDrawn(workingPlan, ground, order));
    const steps = evaluateInDraws(workingPlan, ground, order);
    expect([steps.next().value, steps.next().value]).toEqual([256, 512]);
  });
});

test('an unfinished plan is judged as far as it goes', () => {
  const only = (...roles: string[]): Plan => ({
    ...workingPlan,
    points: workingPlan.points.filter((p) => roles.includes(p.role)),
    routes: [],
    pump: null,
    yieldReadings: [],
  });
  expect(at({ plan: only() })).toMatchObject({ pump: null, tanks: [], verdict: null });
  expect(at({ plan: only('source', 'pump') }).pump?.fallAtRest.likely).toBeCloseTo(4.3, 9);
  const tank = at({ plan: only('source', 'pump', 'tank') }).tanks[0];
  expect(tank).toMatchObject({ line: null, verdict: null });
  expect(tank?.lift.likely).toBeCloseTo(24.8, 9);
});

test('what a visit can settle is listed before what only a running pump shows, however little is known of the pump', () => {
  const listed = at({ accuracy: lidar }).measureFirst.map((m) => m.quantity);
  expect(listed.at(-1)).toBe('pump-efficiency');
  expect(listed.slice(0, -1)).toContain('source-yield');
  expect(listed.slice(0, -1)).toContain('fall');
});
