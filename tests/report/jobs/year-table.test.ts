import { describe, expect, test } from 'vitest';
import type { TankMonth } from '../../../src/evaluation/result/evaluation.ts';
import { yearSentence, yearTable } from '../../../src/report/tables/year-table.ts';

const good: TankMonth = {
  deliveryPerDay: 1,
  needPerDay: 0.8,
  overflow: 6,
  shortfall: 0,
  daysShort: 0,
  lowest: 5,
};
const dry: TankMonth = { ...good, deliveryPerDay: 0, shortfall: 2.5, daysShort: 4, lowest: 0 };
const year = (short: readonly number[]) => ({
  id: 'tank',
  months: Array.from({ length: 12 }, (_, index) => (short.includes(index) ? dry : good)),
});

describe('the year of a tank in words', () => {
  test('a tank that never runs short is said to', () => {
    expect(yearSentence(year([]), 'metric')).toBe('Enough water all year.');
  });

  test('days and water that lack are added over the months', () => {
    expect(yearSentence(year([6, 7, 8]), 'metric')).toBe('Short on 12 days in Jul, Aug and Sep, by 7500\u202fL.');
    // 2.5 m³ = 660 US gallons of 231 in³.
    expect(yearSentence(year([7]), 'us')).toBe('Short on 4 days in Aug, by 660\u202fgal.');
  });

  test('every month has its row', () => {
    const { rows } = yearTable(year([7]), 'Hill tank', 'metric');
    expect(rows.length).toBe(12);
    expect(rows[7]?.cells.slice(0, 4)).toEqual(['Aug', '0\u202fL/day', '800\u202fL/day', '4']);
  });
});
