import { describe, expect, test } from 'vitest';
import { removePrice, setPrice } from '../../src/plan/edits/edit-settings.ts';
import { changeMonth, copyMonthDown, fillYear, halfYears } from '../../src/plan/edits/edit-year.ts';
import { made, planMade } from '../report/plan-made.ts';

const wet = { season: 'winter', airTemperature: null, sourceShare: null } as const;

describe('the twelve months of a plan', () => {
  test('are filled at once, changed one by one and emptied at once', () => {
    const full = made(fillYear(planMade([]), wet));
    expect(full.year.length).toBe(12);
    const august = made(changeMonth(full, 7, { sourceShare: 0.4 }));
    expect(august.year.map((month) => month.sourceShare)).toEqual(
      Array.from({ length: 12 }, (_, index) => (index === 7 ? 0.4 : null)),
    );
    expect(made(fillYear(august, null)).year).toEqual([]);
  });

  test('a month is copied to those below it and to none above', () => {
    const plan = made(copyMonthDown(made(changeMonth(made(fillYear(planMade([]), wet)), 9, { sourceShare: 0.5 })), 9));
    expect(plan.year.map((month) => month.sourceShare)).toEqual([...Array(9).fill(null), 0.5, 0.5, 0.5]);
  });

  test('a month of an empty year cannot be changed', () => {
    expect(changeMonth(planMade([]), 0, { season: 'summer' }).ok).toBe(false);
    expect(copyMonthDown(planMade([]), 3).ok).toBe(false);
  });

  test('summer is in July north of the equator and in January south of it', () => {
    const north = planMade(['source']);
    const south = { ...north, points: north.points.map((p) => ({ ...p, position: { lon: -30, lat: -38 } })) };
    expect([halfYears(north)[6]?.season, halfYears(north)[0]?.season]).toEqual(['summer', 'winter']);
    expect([halfYears(south)[6]?.season, halfYears(south)[0]?.season]).toEqual(['winter', 'summer']);
  });
});

describe('the list of prices', () => {
  test('holds one price an item, and none once it is taken off', () => {
    const price = { item: 'float-valve', unit: 'piece', price: 20, pack: null } as const;
    const one = made(setPrice(planMade([]), price));
    const dearer = made(setPrice(one, { ...price, price: 25 }));
    expect(dearer.materials.prices).toEqual([{ ...price, price: 25 }]);
    expect(made(removePrice(dearer, 'float-valve')).materials.prices).toEqual([]);
  });
});
