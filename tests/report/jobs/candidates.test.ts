import { describe, expect, test } from 'vitest';
import { evaluate } from '../../../src/evaluation/evaluate/evaluate.ts';
import type { Plan, TankPoint } from '../../../src/plan/model/plan.ts';
import { type CandidateOrder, candidates, greatestDay, storedWords } from '../../../src/report/tables/candidates.ts';
import { madeGround } from '../../evaluation/made-ground.ts';
import { route, tank, workingHeights, workingLengths, workingPlan } from '../../evaluation/made-plan.ts';

const named = (id: string, standing: TankPoint['standing'] = 'candidate'): TankPoint => ({
  ...tank,
  id,
  name: id,
  standing,
});

/** A high tank by a short line, a low one by a long line, and one without a line. */
const plan: Plan = {
  ...workingPlan,
  points: [...workingPlan.points, named('high'), named('low'), named('bare')],
  routes: [
    ...workingPlan.routes,
    route('to-high', 'delivery', 'ram', 'high', 'pe25'),
    route('to-low', 'delivery', 'ram', 'low', 'pe25'),
  ],
};
const made = {
  heights: { ...workingHeights, high: 150, low: 115, bare: 120 },
  lengths: { ...workingLengths, 'to-high': 120, 'to-low': 500 },
};
const ordered = (order: CandidateOrder, of: Plan = plan) =>
  candidates(of, evaluate(of, madeGround(of, made)), order).map((one) => one.tank.id);

describe('candidates for the tank', () => {
  test('are put in order by the column asked for, and what is unknown comes last', () => {
    expect(ordered('lift')).toEqual(['low', 'bare', 'tank', 'high']);
    expect(ordered('length')).toEqual(['high', 'tank', 'low', 'bare']);
    expect(ordered('name')).toEqual(['bare', 'high', 'low', 'tank']);
    expect(ordered('governing-lift').at(-1)).toBe('bare');
  });

  test('deliver more the lower they lie', () => {
    // q = η Q H / h: D'Aubuisson's efficiency, the same for all in the plan's band.
    expect(ordered('delivery')).toEqual(['low', 'tank', 'high', 'bare']);
  });

  test('come after the others once they are set aside, whatever they are ordered by', () => {
    const points = plan.points.map((p) => (p.id === 'low' ? named('low', 'set-aside') : p));
    expect(ordered('delivery', { ...plan, points }).at(-1)).toBe('low');
    expect(ordered('lift', { ...plan, points }).at(-1)).toBe('low');
  });

  test('are listed before any ground is known', () => {
    const all = candidates(plan, null, 'verdict');
    expect(all.map((one) => one.tank.id)).toEqual(['bare', 'high', 'low', 'tank']);
    expect(all.every((one) => one.result === null && one.length === null)).toBe(true);
    expect(greatestDay(all)).toBe(0);
  });

  test('share a scale that reaches to the greatest amount and to the need', () => {
    const evaluation = evaluate(plan, madeGround(plan, made));
    const all = candidates(plan, evaluation, 'name');
    const highs = evaluation.tanks.flatMap(({ line }) => line?.deliveryPerDay?.high ?? []);
    // Fifteen head at 0.05 m³ a day.
    expect(greatestDay(all)).toBe(Math.max(0.75, ...highs));
  });

  test('say how many days of need they hold', () => {
    const one = candidates(plan, evaluate(plan, madeGround(plan, made)), 'name').at(-1);
    // 5 m³ over 0.75 m³ a day.
    expect(storedWords(one?.result ?? null)).toBe('6.7 days');
    expect(storedWords(null)).toBe('–');
  });
});
