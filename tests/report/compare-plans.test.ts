import { describe, expect, it } from 'vitest';
import { difference } from '../../src/evaluation/apart.ts';
import { evaluate } from '../../src/evaluation/evaluate.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { type ComparedPart, comparePlans } from '../../src/report/compare-plans.ts';
import type { ComparedRow } from '../../src/report/compared-row.ts';
import { lidar, madeGround } from '../evaluation/made-ground.ts';
import { workingHeights, workingLengths, workingPlan } from '../evaluation/made-plan.ts';

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

const rowsOf = (parts: readonly ComparedPart[]): ReadonlyMap<string, ComparedRow> =>
  new Map(parts.flatMap(({ rows }) => rows.map((row) => [row.about, row] as const)));

describe('two plans side by side', () => {
  it('are the same in every row when they are one plan', () => {
    const parts = comparePlans(reckoned(), reckoned(), 'metric');
    for (const { rows } of parts) {
      for (const row of rows) expect(row).toMatchObject({ standing: 'same', difference: null, other: row.one });
    }
    expect(parts.map(({ title }) => title)).not.toContain('What was drawn or typed differently');
  });

  it('differ by what one tank stands lower, and by the metres of pipe that it saves', () => {
    // Ground 123 m and 113 m; both tanks have their inlet 2 m and the pump its valve 0.2 m above the ground.
    const rows = rowsOf(
      comparePlans(reckoned(), reckoned({ heights: { tank: 113 }, lengths: { delivery: 180 } }), 'metric'),
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
    const rows = rowsOf(comparePlans(reckoned(), reckoned({ heights: { tank: 122.95 } }), 'metric'));
    expect(rows.get('tank: lift')).toMatchObject({ difference: '−0.05\u202fm', standing: 'within' });
  });

  it('name the points that moved, with how far, and what only one of them has', () => {
    const [spring, standpipe, ram, tank, trough] = workingPlan.points;
    if (!spring || !standpipe || !ram || !tank || !trough) throw new Error('found fewer points, expected five');
    // 100 m north by the length of a degree of latitude at 38°: 110 996 m (WGS 84).
    const north = { ...tank, position: { ...tank.position, lat: tank.position.lat + 100 / 110_996 } };
    const moved: Plan = { ...workingPlan, points: [spring, standpipe, ram, north, trough] };
    const rows = rowsOf(comparePlans(reckoned(), reckoned({ plan: moved }), 'metric'));
    expect(rows.get('tank: place')?.other?.words).toBe('moved 100.0\u202fm');

    const without: Plan = {
      ...workingPlan,
      points: [spring, standpipe, ram, tank],
      routes: workingPlan.routes.filter(({ to }) => to !== 'trough'),
    };
    const less = rowsOf(comparePlans(reckoned(), reckoned({ plan: without }), 'metric'));
    expect(less.get('trough')).toMatchObject({ one: { words: 'drawn' }, other: null });
  });

  it('show a finding that only one of them has', () => {
    const dry = reckoned({
      plan: { ...workingPlan, herd: [{ kind: 'own', label: 'more', needPerDay: 0.05, count: 150 }] },
    });
    const rows = rowsOf(comparePlans(reckoned(), dry, 'us'));
    const need = [...rows.values()].find(({ one, other }) => one?.words === 'holds' && other?.words === 'fails');
    expect(need).toBeDefined();
    expect(rows.get('Herd')).toMatchObject({ standing: 'other' });
  });
});

describe('the difference of two estimates', () => {
  it('shows only where their bands lie apart', () => {
    expect(difference({ low: 1, likely: 2, high: 3 }, { low: 3.1, likely: 4, high: 5 })).toEqual({
      by: 2,
      apart: true,
    });
    expect(difference({ low: 1, likely: 2, high: 3 }, { low: 3, likely: 4, high: 5 })).toEqual({ by: 2, apart: false });
    expect(difference({ low: 3, likely: 4, high: 5 }, { low: 1, likely: 2, high: 2.9 })).toEqual({
      by: -2,
      apart: true,
    });
  });
});
