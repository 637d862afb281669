import { describe, expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import type { Plan, PumpSheet } from '../../src/plan/model/plan.ts';
import { madeGround } from './made-ground.ts';
import { route, sheet, tank, workingHeights, workingLengths, workingPlan } from './made-plan.ts';

const exact: PumpSheet = { ...sheet, efficiency: { low: 0.5, likely: 0.5, high: 0.5 } };
const DAY = 86_400;

/** Two kept tanks, the second so much above or below the first, on lines of their own from one pump. */
function twoTanks(higher: number, keep: readonly string[] = ['tank', 'second']) {
  const standing = (id: string) => (keep.includes(id) ? ('kept' as const) : ('candidate' as const));
  const plan: Plan = {
    ...workingPlan,
    pump: exact,
    points: [
      ...workingPlan.points.map((p) => (p.role === 'tank' ? { ...p, standing: standing(p.id) } : p)),
      { ...tank, id: 'second', name: 'second', standing: standing('second') },
    ],
    routes: [
      ...workingPlan.routes,
      { ...route('delivery-2', 'delivery', 'ram', 'tank', 'pe25'), to: 'second', fittings: [] },
    ],
  };
  const ground = madeGround(plan, {
    heights: { ...workingHeights, second: workingHeights.tank + higher },
    lengths: { ...workingLengths, 'delivery-2': workingLengths.delivery },
  });
  const { tanks, pump } = evaluate(plan, ground);
  const of = (id: string) => tanks.find((t) => t.id === id)?.line;
  const perDay = (id: string) => of(id)?.deliveryPerDay?.likely ?? Number.NaN;
  return { perDay, of, input: (pump?.driveFlow?.likely ?? 0) * (pump?.fall.likely ?? 0) * DAY };
}

describe('two kept tanks of one pump', () => {
  test('on lines alike get the half each, and together what the water’s work lifts', () => {
    const { perDay, of, input } = twoTanks(0);
    expect(perDay('tank')).toBeCloseTo(perDay('second'), 9);
    // q h = η Q H (D'Aubuisson): h the lift of 24.8 m and the friction of one line.
    const head = (of('tank')?.governingLift.likely ?? 0) + (of('tank')?.friction ?? 0);
    expect((perDay('tank') + perDay('second')) * head).toBeCloseTo(0.5 * input, 6);
  });

  test('do not both get what either would by itself', () => {
    const alone = twoTanks(0, ['tank']).perDay('tank');
    const { perDay } = twoTanks(0);
    expect(perDay('tank')).toBeLessThan(0.6 * alone);
    expect(perDay('tank') + perDay('second')).toBeGreaterThanOrEqual(alone);
  });

  test('far apart in height leave all to the lower one', () => {
    const { perDay } = twoTanks(20);
    expect(perDay('second')).toBe(0);
    expect(perDay('tank')).toBeCloseTo(twoTanks(20, ['tank']).perDay('tank'), 6);
  });

  test('that are only compared are each reckoned with by itself', () => {
    const { perDay } = twoTanks(0, []);
    expect(perDay('tank')).toBeCloseTo(perDay('second'), 9);
    expect(perDay('tank')).toBeCloseTo(twoTanks(0, ['tank']).perDay('tank'), 9);
  });
});
