import { describe, expect, test } from 'vitest';
import { evaluate } from '../../../src/evaluation/evaluate/evaluate.ts';
import type { Plan } from '../../../src/plan/model/plan.ts';
import { pipeBill } from '../../../src/report/tables/pipe-bill.ts';
import { madeGround } from '../../evaluation/made-ground.ts';
import { route, workingHeights, workingLengths, workingPlan } from '../../evaluation/made-plan.ts';

function billOf(plan: Plan, units: 'metric' | 'us' = 'metric') {
  const ground = madeGround(plan, { heights: workingHeights, lengths: workingLengths });
  return pipeBill(plan, evaluate(plan, ground), units);
}

const priced: Plan = {
  ...workingPlan,
  materials: {
    currency: 'crowns',
    allowance: 0.05,
    prices: [
      { item: 'pe100-sdr11-25', unit: 'metre', price: 2, pack: 100 },
      { item: 'steel-sch40-1.25in', unit: 'piece', price: 40, pack: 6 },
    ],
  },
};

describe('the bill of a plan', () => {
  test('names coils of polyethylene and sticks of steel, whole ones', () => {
    const { pipes } = billOf(priced);
    // √(300² + 23²) + √(80² + 5²) = 381.04 m and 5 %: five coils. √(30² + 3.4²) = 30.19 m and 5 %: six sticks.
    expect(pipes.map(({ need, packs }) => [need.item, packs])).toEqual([
      ['pe100-sdr17-63', null],
      ['steel-sch40-1.25in', '6 sticks of\u00a06.0\u202fm'],
      ['pe100-sdr11-25', '5 coils of\u00a0100.0\u202fm'],
    ]);
    expect(pipes.map(({ cost }) => cost)).toEqual([null, '240.00 crowns', '1000.00 crowns']);
  });

  test('adds up what has a price and says what has none', () => {
    const bill = billOf(priced);
    expect(bill.total).toBe('1240.00 crowns');
    expect(bill.without).toContain('PE100 SDR 17 63 mm');
    expect(billOf(workingPlan).total).toBeNull();
  });

  test('states lengths in the units that are shown', () => {
    const [supply] = billOf(workingPlan, 'us').pipes;
    // √(60² + 1.1²) = 60.01 m = 196.9 ft.
    expect(supply?.length).toBe('197\u202fft');
    expect(supply?.routes).toBe('supply');
  });

  test('counts the pipe of a trough that is fed from the source, without any pump', () => {
    const points = workingPlan.points.filter(({ role }) => role === 'source' || role === 'trough');
    const plan: Plan = {
      ...priced,
      points,
      routes: [route('gravity', 'gravity', 'spring', 'trough', 'pe25')],
      pump: null,
    };
    const { pipes, pieces } = billOf(plan);
    // 80 m level and 13.5 m up: √(80² + 13.5²) = 81.13 m; one coil of 100 m at 2 a metre.
    expect(pipes.map(({ length, packs, cost }) => [length, packs, cost])).toEqual([
      ['81.1\u202fm', '1 coil of\u00a0100.0\u202fm', '200.00 crowns'],
    ]);
    expect(pieces.map(({ need }) => need.item)).toEqual(['trough', 'stop-valve', 'float-valve']);
  });

  test('counts what stands at the ends, what shuts off and takes out the pump, and the trench, with no price at all', () => {
    const { pieces, trenches, total } = billOf(workingPlan);
    expect(total).toBeNull();
    const count = (item: string) => pieces.find(({ need }) => need.item === item)?.need.count;
    // One on the drive pipe and one on the delivery, so that the pump comes out: common practice, no source.
    expect(['pump', 'standpipe', 'tank', 'trough', 'pump-valve', 'union'].map(count)).toEqual([1, 1, 1, 1, 2, 2]);
    // √(60² + 1.1²) + √(300² + 23²) + √(80² + 5²) = 441.05 m; the drive pipe is anchored, not buried.
    expect(trenches.map(({ length }) => length)).toEqual(['441.0\u202fm']);
  });

  test('counts for two pumps a valve and a union on either side of each, and one trench', () => {
    const { pump } = workingPlan;
    const two = { ...workingPlan, pump: pump && { ...pump, count: 2 } };
    const count = (item: string) => billOf(two).pieces.find(({ need }) => need.item === item)?.need.count;
    expect(['pump', 'pump-valve', 'union'].map(count)).toEqual([2, 4, 4]);
    expect(billOf(two).trenches.map(({ need }) => need.length)).toEqual(
      billOf(workingPlan).trenches.map(({ need }) => need.length),
    );
  });

  test('tells deeper trench apart by its depth', () => {
    const deep = {
      ...workingPlan,
      routes: workingPlan.routes.map((r) => (r.role === 'gravity' ? { ...r, trenchDepth: 1.2 } : r)),
    };
    expect(billOf(deep).trenches.map(({ need, length }) => [need.label, length])).toEqual([
      ['trench, shallow', '360.9\u202fm'],
      ['trench, 1.20\u202fm deep', '80.2\u202fm'],
    ]);
  });
});
