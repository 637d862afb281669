import { describe, expect, test } from 'vitest';
import { evaluate } from '../../../src/evaluation/evaluate/evaluate.ts';
import type { Plan, TankPoint } from '../../../src/plan/model/plan.ts';
import { comparedProfiles } from '../../../src/report/compare/compared-profiles.ts';
import { profileFigure } from '../../../src/report/profile/profile-figure.ts';
import { profileOfWay } from '../../../src/report/profile/profile-of-plan.ts';
import { waterWays } from '../../../src/report/tables/water-ways.ts';
import { madeGround } from '../../evaluation/made-ground.ts';
import { route, tank, workingHeights, workingLengths, workingPlan } from '../../evaluation/made-plan.ts';

const other: TankPoint = { ...tank, id: 'other', name: 'other' };
const aside: TankPoint = { ...tank, id: 'aside', name: 'aside', standing: 'set-aside' };
const plan: Plan = {
  ...workingPlan,
  points: [...workingPlan.points, other, aside],
  routes: [
    ...workingPlan.routes,
    route('to-other', 'delivery', 'ram', 'other', 'pe25'),
    route('to-aside', 'delivery', 'ram', 'aside', 'pe25'),
  ],
};
const ground = madeGround(plan, {
  heights: { ...workingHeights, other: 140, aside: 130 },
  lengths: { ...workingLengths, 'to-other': 450, 'to-aside': 200 },
});
const source = { plan, evaluation: evaluate(plan, ground), ...ground };

function laid(last: string) {
  const way = waterWays(plan).find(({ routes }) => routes.length > 1 && routes.includes(last));
  if (way === undefined) throw new Error(`way through ${last}: found none, expected one`);
  const main = profileOfWay(source, way);
  return { main, compared: comparedProfiles(source, way, main) };
}

describe('profiles laid over each other', () => {
  test('begin at the pump, each as far along as its line is long', () => {
    const { compared } = laid('delivery');
    // 60 m of supply line and 30 m of drive pipe lie before the pump.
    expect(compared.legs.map(({ id, offset, emphasis }) => [id, offset, emphasis])).toEqual([
      ['to-other', 90, 'compared'],
    ]);
    expect(compared.stations.map(({ id, at }) => [id, at])).toEqual([['other', 540]]);
  });

  test('leave out the way that is shown and tanks that are set aside', () => {
    expect(laid('to-other').compared.legs.map(({ id }) => id)).toEqual(['delivery']);
  });

  test('are drawn as lines of pipe alone, within the figure', () => {
    const { main, compared } = laid('delivery');
    const figure = profileFigure({
      title: 'made',
      legs: [...main.legs, ...compared.legs],
      stations: [...main.stations, ...compared.stations],
      units: 'metric',
      size: { width: 600, height: 240 },
      cursor: null,
      key: 'made',
    });
    const text = JSON.stringify(figure);
    expect(text).toContain('pipe delivery compared');
    expect(text.match(/"class":"ground"/g)?.length).toBe(main.legs.length);
  });

  test('there are none over a line that does not pass the pump', () => {
    const way = { id: 'gravity', title: '', routes: ['gravity'] };
    expect(comparedProfiles(source, way, profileOfWay(source, way)).legs).toEqual([]);
  });
});
