import { describe, expect, it } from 'vitest';
import { evaluate } from '../../src/evaluation/evaluate/evaluate.ts';
import type { Plan } from '../../src/plan/model/plan.ts';
import { type ComparedPart, comparePlans, countSame, differingParts } from '../../src/report/compare/compare-plans.ts';
import type { ComparedRow } from '../../src/report/compare/compared-row.ts';
import { plansApart } from '../../src/report/compare/plans-apart.ts';
import { lidar, madeGround } from '../evaluation/made-ground.ts';
import { litresPerMinute, sheet, workingHeights, workingLengths, workingPlan } from '../evaluation/made-plan.ts';

interface Made {
  readonly plan?: Plan;
  readonly heights?: Readonly<Record<string, number>>;
  readonly lengths?: Readonly<Record<string, number>>;
}

function reckoned({ plan = workingPlan, heights, lengths }: Made = {}) {
  const ground = madeGround(plan, {
    heights: { ...workingHeights, ...heights },
    lengths: { ...workingLengths, ...lengths },
    accuracy: lidar,
  });
  return { plan, evaluation: evaluate(plan, ground) };
}

type Reckoned = ReturnType<typeof reckoned>;

const rowsOf = (parts: readonly ComparedPart[]): ReadonlyMap<string, ComparedRow> =>
  new Map(parts.flatMap(({ rows }) => rows.map((row) => [row.about, row] as const)));

describe('two plans side by side', () => {
  it('are the same in every row when they are one plan', () => {
    const parts = comparePlans({ drawn: null, one: reckoned(), other: reckoned() }, 'metric');
    for (const { rows } of parts) {
      for (const row of rows) expect(row).toMatchObject({ standing: 'same', difference: null, other: row.one });
    }
    expect(parts.map(({ title }) => title)).not.toContain('What was drawn or typed differently');
  });

  it('differ by what one tank stands lower, and by the metres of pipe that it saves', () => {
    // Ground 123 m and 113 m; both tanks have their inlet 2 m and the pump its valve 0.2 m above the ground.
    const rows = rowsOf(
      comparePlans(
        { drawn: null, one: reckoned(), other: reckoned({ heights: { tank: 113 }, lengths: { delivery: 180 } }) },
        'metric',
      ),
    );
    expect(rows.get('tank: lift')).toMatchObject({
      one: { words: '24.80\u202fm' },
      other: { words: '14.80\u202fm' },
      difference: '−10.00\u202fm',
      standing: 'apart',
    });
    const [delivery] = [...rows.values()].filter(({ about }) => /SDR 11/.test(about));
    expect(delivery?.standing).toBe('other');
    expect(delivery?.difference).toMatch(/^−12\d\.\d\u202fm$/);
    expect(rows.get('tank: arrives a day')?.difference).toMatch(/^\+/);
  });

  it('are not told apart by a hand’s breadth that the elevation file cannot see', () => {
    const rows = rowsOf(
      comparePlans({ drawn: null, one: reckoned(), other: reckoned({ heights: { tank: 122.95 } }) }, 'metric'),
    );
    expect(rows.get('tank: lift')).toMatchObject({ difference: '−0.05\u202fm', standing: 'within' });
  });

  it('name the points that moved, with how far, and what only one of them has', () => {
    const [spring, standpipe, ram, tank, trough] = workingPlan.points;
    if (!spring || !standpipe || !ram || !tank || !trough) throw new Error('found fewer points, expected five');
    // 100 m north by the length of a degree of latitude at 38°: 110 996 m (WGS 84).
    const north = { ...tank, position: { ...tank.position, lat: tank.position.lat + 100 / 110_996 } };
    const moved: Plan = { ...workingPlan, points: [spring, standpipe, ram, north, trough] };
    const rows = rowsOf(comparePlans({ drawn: null, one: reckoned(), other: reckoned({ plan: moved }) }, 'metric'));
    expect(rows.get('tank: place')?.other?.words).toBe('moved 100.0\u202fm');

    const without: Plan = {
      ...workingPlan,
      points: [spring, standpipe, ram, tank],
      routes: workingPlan.routes.filter(({ to }) => to !== 'trough'),
    };
    const less = rowsOf(comparePlans({ drawn: null, one: reckoned(), other: reckoned({ plan: without }) }, 'metric'));
    expect(less.get('trough')).toMatchObject({ one: { words: 'drawn' }, other: null });
  });

  it('show a finding that only one of them has', () => {
    const dry = reckoned({
      plan: { ...workingPlan, herd: [{ kind: 'own', label: 'more', needPerDay: 0.05, count: 150 }] },
    });
    const rows = rowsOf(comparePlans({ drawn: null, one: reckoned(), other: dry }, 'us'));
    const need = [...rows.values()].find(({ one, other }) => one?.words === 'OK' && other?.words === 'fails');
    expect(need).toBeDefined();
    expect(rows.get('Herd')).toMatchObject({ standing: 'other' });
  });

  it('count a finding as gained where only the second has it open, and as gone the other way round', () => {
    const thirsty = reckoned({
      plan: { ...workingPlan, herd: [{ kind: 'own', label: 'more', needPerDay: 0.05, count: 150 }] },
    });
    const open = (one: Reckoned, other: Reckoned) =>
      comparePlans({ drawn: null, one, other }, 'metric')
        .filter(({ title }) => title === 'Open questions')
        .flatMap(({ rows }) => rows.map(({ difference }) => difference).filter((words) => words !== null));
    const gained = open(reckoned(), thirsty);
    expect(gained.length).toBeGreaterThan(0);
    expect(new Set(gained)).toEqual(new Set(['gained']));
    expect(open(thirsty, reckoned())).toEqual(gained.map(() => 'gone'));
  });

  it('are told lines by their length along the ground, and all of them together', () => {
    // 60 + 30 + 300 + 80 m of made ground against 60 + 30 + 180 + 80 m; slopes from the heights of the ends, by Pythagoras.
    const lower = reckoned({ lengths: { delivery: 180 } });
    const slope = (rise: number, run: number) => Math.hypot(rise, run);
    const [long, short] = [slope(23, 300), slope(23, 180)];
    const rows = rowsOf(comparePlans({ drawn: null, one: reckoned(), other: lower }, 'metric'));
    expect(rows.get('delivery')).toMatchObject({
      one: { words: `${long.toFixed(1)}\u202fm` },
      other: { words: `${short.toFixed(1)}\u202fm` },
      difference: `−${(Number(long.toFixed(1)) - Number(short.toFixed(1))).toFixed(1)}\u202fm`,
    });
    expect(rows.get('All lines')?.difference).toBe(rows.get('delivery')?.difference);
    expect(rows.get('supply')?.standing).toBe('same');
  });

  it('give the days that a full tank lasts by its volume over the need', () => {
    // 15 animals at 50 L drink 750 L a day: 5 m³ last 6.67 days, 7.5 m³ last 10.
    const larger = {
      ...workingPlan,
      points: workingPlan.points.map((p) => (p.id === 'tank' ? { ...p, volume: 7.5 } : p)),
    };
    const rows = rowsOf(comparePlans({ drawn: null, one: reckoned(), other: reckoned({ plan: larger }) }, 'metric'));
    expect(rows.get('tank: a full tank lasts')).toMatchObject({
      one: { words: '6.7 days' },
      other: { words: '10.0 days' },
      difference: '+3.3 days',
    });
    expect(rows.get('tank: volume')).toMatchObject({ difference: '+2500\u202fL', standing: 'other' });
  });

  it('tell a price apart only in one currency', () => {
    const priced = (currency: string, price: number): Plan => ({
      ...workingPlan,
      materials: { currency, allowance: 0, prices: [{ item: 'pe100-sdr17-63', unit: 'metre', price, pack: null }] },
    });
    const cost = (one: Plan, other: Plan) =>
      rowsOf(
        comparePlans({ drawn: null, one: reckoned({ plan: one }), other: reckoned({ plan: other }) }, 'metric'),
      ).get('Priced pipe and pieces');
    // 60 m of supply line with 1.1 m of fall are 60.01 m: at 3 and at 4 a metre 60.01 apart.
    expect(cost(priced('EUR', 3), priced('EUR', 4))?.difference).toMatch(/^\+.*60\.0[01]/);
    expect(cost(priced('EUR', 3), priced('USD', 4))?.difference).toBeNull();
  });

  it('name every figure that was typed differently, in either system of units', () => {
    const other: Plan = {
      ...workingPlan,
      pump: { ...sheet, intakeMost: litresPerMinute(30) },
      herd: [{ kind: 'own', label: 'invented herd', needPerDay: 0.05, count: 20 }],
      yieldReadings: [{ kind: 'stated', flow: litresPerMinute(24), plusMinus: litresPerMinute(2) }],
      waterTemperature: 15,
      routes: workingPlan.routes.map((r) =>
        r.id === 'supply' ? { ...r, pipe: 'pe25', fittings: [{ fitting: 'elbow-90-threaded', count: 2 }] } : r,
      ),
    };
    const apart = (units: 'metric' | 'us') =>
      new Map(plansApart(workingPlan, other, units).map((row) => [row.about, row] as const));
    const metric = apart('metric');
    expect(metric.get('Pump: takes at most')?.difference).toBe('+5.0\u202fL/min');
    expect(metric.get('Herd')?.other?.words).toMatch(/^20 × invented herd at 50\.0/);
    expect(metric.get('supply: fittings')).toMatchObject({ one: { words: 'none counted' } });
    expect(metric.get('supply: pipe')?.one?.words).not.toBe(metric.get('supply: pipe')?.other?.words);
    // A difference of 5 K is one of 9 °F.
    expect(metric.get('Water temperature')?.difference).toBe('+5.0\u202f°C');
    expect(apart('us').get('Water temperature')?.difference).toBe('+9.0\u202f°F');
    expect([...apart('us').keys()]).toEqual([...metric.keys()]);
    expect(plansApart(workingPlan, workingPlan, 'us')).toEqual([]);
  });

  it('leave out what is the same, and say how much that is', () => {
    const parts = comparePlans({ drawn: null, one: reckoned(), other: reckoned({ heights: { tank: 113 } }) }, 'metric');
    const all = parts.flatMap(({ rows }) => rows).length;
    const differing = differingParts(parts).flatMap(({ rows }) => rows).length;
    expect(differing).toBeGreaterThan(2);
    expect(differing + countSame(parts)).toBe(all);
    expect(differingParts(comparePlans({ drawn: null, one: reckoned(), other: reckoned() }, 'metric'))).toEqual([]);
  });
});
