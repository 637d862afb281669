import { describe, expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import { bendsOf, cornersOf, materialNeeds, routesToBuild } from '../../src/evaluation/evaluate/materials.ts';
import type { Plan, PlanRoute } from '../../src/plan/model/plan.ts';
import { materialsCsv } from '../../src/report/tables/materials-csv.ts';
import { madeGround } from './made-ground.ts';
import { route, tank, workingHeights, workingLengths, workingPlan } from './made-plan.ts';

const ground = madeGround(workingPlan, { heights: workingHeights, lengths: workingLengths });
const needs = (plan: Plan) => materialNeeds(plan, evaluate(plan, ground));

const priced = (prices: Plan['materials']['prices'], allowance = 0): Plan => ({
  ...workingPlan,
  materials: { currency: 'crowns', allowance, prices },
});

describe('pipe to buy', () => {
  test('is the length along the slope, lines of one pipe together', () => {
    const pe25 = needs(workingPlan).pipes.find((p) => p.item === 'pe100-sdr11-25');
    // Two straight lines on even slopes: 300 m level rising 23 m, 80 m level falling 5 m.
    expect(pe25?.length).toBeCloseTo(Math.hypot(300, 23) + Math.hypot(80, 5), 6);
    expect(pe25?.routes).toEqual(['delivery', 'gravity']);
  });

  test('comes in whole coils, the allowance counted first', () => {
    const plan = priced([{ item: 'pe100-sdr11-25', unit: 'metre', price: 2, pack: 100 }], 0.05);
    const pe25 = needs(plan).pipes.find((p) => p.item === 'pe100-sdr11-25');
    // 381.03 m and 5 %: 400.08 m, five coils of 100 m.
    expect(pe25).toMatchObject({ packs: 5, cost: 1000 });
  });

  test('is cut to length where no coil is named, and a stick has its price a piece', () => {
    const cut = needs(priced([{ item: 'pe100-sdr17-63', unit: 'metre', price: 10, pack: null }]));
    expect(cut.pipes.find((p) => p.item === 'pe100-sdr17-63')?.cost).toBeCloseTo(10 * Math.hypot(60, 1.1), 6);
    const sticks = needs(priced([{ item: 'steel-sch40-1.25in', unit: 'piece', price: 40, pack: 6 }]));
    // Math.hypot(30, 3.4) = 30.2 m: six sticks of 6 m.
    expect(sticks.pipes.find((p) => p.item === 'steel-sch40-1.25in')).toMatchObject({ packs: 6, cost: 240 });
  });

  test('what has no price is named and left out of the total', () => {
    const some = needs(priced([{ item: 'float-valve', unit: 'piece', price: 25, pack: null }]));
    expect(some.total).toBe(25);
    expect(some.unpriced).toContain('stop valve at the outlet of a tank or spring');
    expect(needs(workingPlan).total).toBeNull();
  });
});

describe('lines that are built', () => {
  const second = { ...tank, id: 'other', standing: 'kept' as const };
  const two: Plan = {
    ...workingPlan,
    points: [...workingPlan.points, second],
    routes: [...workingPlan.routes, route('to-other', 'delivery', 'ram', 'other', 'pe25')],
  };

  test('are those of the kept tank once one is kept', () => {
    expect(routesToBuild(two).map((r) => r.id)).toEqual(['supply', 'drive', 'to-other']);
  });

  test('are those of every candidate before that, but of none that is set aside', () => {
    const aside: Plan = {
      ...two,
      points: two.points.map((p) => (p.id === 'other' ? { ...second, standing: 'set-aside' } : p)),
    };
    expect(routesToBuild(aside).map((r) => r.id)).toEqual(['supply', 'drive', 'delivery', 'gravity']);
  });
});

describe('bends', () => {
  const at = (east: number, north: number) => ({ lon: -40 + east / 87_832, lat: 38 + north / 110_996 });
  const bent = (...corners: readonly (readonly [number, number])[]): PlanRoute => ({
    ...route('bent', 'supply', 'spring', 'standpipe', 'pe63'),
    vertices: corners.map(([e, n]) => at(e, n)),
  });

  test('a right angle, a half right angle and a straight point are told apart', () => {
    const corners = cornersOf(bent([0, 0], [100, 0], [100, 100], [200, 200], [300, 300]));
    [90, 45, 0].forEach((angle, i) => {
      expect(Math.abs((corners[i] ?? 99) - angle)).toBeLessThan(0.2);
    });
  });

  test('rigid pipe takes an elbow for each; a coil bends through the easy ones by itself', () => {
    const line = bent([0, 0], [100, 0], [100, 100], [200, 200], [300, 300]);
    const count = (pipe: 'rigid' | 'coiled') => bendsOf(line, pipe).map((b) => b.count);
    expect(count('rigid')).toEqual([1, 1]);
    expect(count('coiled')).toEqual([0, 1]);
  });
});

test('the list leaves as comma-separated text in the shown units, and a name never becomes a formula', () => {
  const plan: Plan = {
    ...priced([{ item: 'float-valve', unit: 'piece', price: 25, pack: null }]),
    routes: workingPlan.routes.map((r) => (r.id === 'supply' ? { ...r, name: '=HYPERLINK("x"), y' } : r)),
  };
  const lines = materialsCsv(needs(plan), plan, 'us').split('\r\n');
  expect(lines[0]).toBe('item,"along the ground, ft","to buy, ft",packs,pieces,"cost, crowns",for');
  // 60.01 m / 0.3048 = 196.9 ft.
  expect(lines[1]).toBe(`PE100 SDR 17 63 mm,196.9,196.9,,,,"'=HYPERLINK(""x""), y"`);
  expect(lines.at(-2)).toBe('total,,,,,25,without what has no price');
});
