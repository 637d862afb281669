import { describe, expect, it } from 'vitest';
import {
  fallsWithHeat,
  type HerdRow,
  herdNeed,
  herdPeak,
  herdRow,
  herdRows,
  warmerRows,
  warmestOf,
} from '../../src/handbook/livestock-needs.ts';

function row(id: string): HerdRow {
  const found = herdRow(id);
  if (found === null) throw new Error(`no row ${id}`);
  return found;
}

const summer = { season: 'summer', airTemperature: null } as const;
const winter = { season: 'winter', airTemperature: null } as const;
const US_GALLON = 0.003785411784;

describe('what animals drink', () => {
  it('by season as the Canadian table prints it: a lactating cow 77 L in winter, 95 L in summer', () => {
    const cow = row('beef-lactating-cow-aafc');
    expect(herdNeed(cow, winter)).toMatchObject({ low: 0.077, high: 0.077 });
    expect(herdNeed(cow, summer)).toMatchObject({ low: 0.095, high: 0.095 });
    // A table by season does not know temperatures.
    expect(herdNeed(cow, { season: 'winter', airTemperature: 35 })).toMatchObject({ high: 0.077 });
  });

  it('by temperature as the National Research Council prints it, straight between and never beyond', () => {
    const cow = row('beef-lactating-cow-nrc');
    const at = (fahrenheit: number): number =>
      herdNeed(cow, { season: 'summer', airTemperature: (fahrenheit - 32) / 1.8 }).high / US_GALLON;
    // 16.3, 17.9 and 21.6 gallons at 70, 80 and 90 °F.
    expect(at(70)).toBeCloseTo(16.3, 2);
    expect(at(80)).toBeCloseTo(17.9, 2);
    expect(at(90)).toBeCloseTo(21.6, 2);
    expect(at(85)).toBeCloseTo((17.9 + 21.6) / 2, 2);
    expect(at(110)).toBeCloseTo(21.6, 2);
    expect(at(30)).toBeCloseTo(16.3, 2);
    expect(herdNeed(cow, winter).high / US_GALLON).toBeCloseTo(16.3, 2);
    expect(herdNeed(cow, summer).high / US_GALLON).toBeCloseTo(21.6, 2);
  });

  it('keeps a printed range: a milking cow at 22.7 kg a day drinks 87 to 102 L', () => {
    const cow = row('dairy-milking-22-7-kg-d-omafra');
    const { low, high } = herdNeed(cow, { season: 'winter', airTemperature: 5 });
    expect(low).toBeCloseTo(0.087, 12);
    expect(high).toBeCloseTo(0.102, 12);
  });

  it('counts one bird where the table counts a thousand: 180 to 320 L for 1000 laying hens', () => {
    const { low, high } = herdPeak(row('poultry-laying-hens-omafra'));
    expect(low).toBeCloseTo(0.00018, 12);
    expect(high).toBeCloseTo(0.00032, 12);
  });

  it('imperial gallons stay imperial: 15 a day for a cow-calf pair are 68 L', () => {
    expect(herdPeak(row('beef-cow-calf-pair-alberta')).high).toBeCloseTo(15 * 0.00454609, 5);
  });

  it('the peak is no less than any printed need', () => {
    for (const one of herdRows())
      for (const step of one.needs) expect(herdPeak(one).high).toBeGreaterThanOrEqual(step.high);
  });

  it.each(herdRows().map((one) => [one.id, one] as const))('%s is a need that can be', (id, one) => {
    expect(id).toMatch(/^[a-z0-9-]+$/);
    expect(one.source.length).toBeGreaterThan(20);
    expect(one.needs.length).toBeGreaterThan(0);
    for (const { low, high } of one.needs) {
      expect(low).toBeGreaterThan(0);
      expect(high).toBeGreaterThanOrEqual(low);
      expect(high).toBeLessThan(0.21);
    }
    const temperatures = one.needs.map((step) => step.airTemperature);
    const known = temperatures.filter((temperature) => temperature !== null);
    expect([0, temperatures.length]).toContain(known.length);
    expect(known).toEqual([...known].sort((a, b) => a - b));
  });

  it('an unknown class is no row', () => {
    expect(herdRow('dragon')).toBeNull();
  });
});

describe('rows that end, and rows that are odd', () => {
  const row = (id: string) => {
    const found = herdRow(id);
    if (found === null) throw new Error(`found no row ${id}`);
    return found;
  };

  // A cow of 1 100 lb in calf is printed up to 70 °F; another publication prints dry pregnant cows up to 90 °F with 66.6 L.
  it('of animals that are printed up to 70 °F only the row of such animals that goes up to 90 °F is offered', () => {
    expect(warmestOf(row('beef-pregnant-1100-lb-ndsu'))).toBeCloseTo((70 - 32) / 1.8, 6);
    const offered = warmerRows(row('beef-pregnant-1100-lb-ndsu'));
    expect(offered.map(({ id }) => id)).toContain('beef-dry-pregnant-cow-nrc');
    for (const other of offered) expect(other.species).toBe('beef');
    expect(warmerRows(row('beef-lactating-cow-nrc'))).toEqual([]);
    expect(warmestOf(row('beef-bull-aafc'))).toBeNull();
  });

  it('a need that falls with heat is found: 67.8 L at 80 °F, 61.3 L at 90 °F as printed', () => {
    const odd = fallsWithHeat(row('beef-lactating-900-lb-ndsu'));
    expect(odd?.from.high).toBeCloseTo(0.06776, 6);
    expect(odd?.to.high).toBeCloseTo(0.06132, 6);
    expect(fallsWithHeat(row('beef-lactating-cow-nrc'))).toBeNull();
  });
});
