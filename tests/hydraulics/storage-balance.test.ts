import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { storageBalance } from '../../src/evaluation/evaluate/year.ts';

const amount = fc.double({ min: 0, max: 20, noNaN: true });
const steps = fc.array(fc.record({ inflow: amount, demand: amount }), { maxLength: 60 });
const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

describe('water in store', () => {
  it('three days without a source empty a tank of three days', () => {
    const dry = { inflow: 0, demand: 2.4 };
    const balance = storageBalance({ capacity: 7.2, start: 7.2, steps: [dry, dry, dry, dry] });
    expect(balance.stored.map((value) => Number(value.toFixed(9)))).toEqual([4.8, 2.4, 0, 0]);
    expect(sum(balance.shortfall)).toBeCloseTo(2.4, 9);
    expect(sum(balance.overflow)).toBe(0);
  });

  it('a full tank runs over by what comes and is not wanted', () => {
    const balance = storageBalance({ capacity: 5, start: 5, steps: [{ inflow: 3, demand: 1 }] });
    expect(balance).toEqual({ stored: [5], overflow: [2], shortfall: [0] });
  });

  it('is neither made nor lost, and stays between empty and full', () => {
    fc.assert(
      fc.property(amount, fc.double({ min: 0, max: 1, noNaN: true }), steps, (capacity, share, all) => {
        const start = capacity * share;
        const { stored, overflow, shortfall } = storageBalance({ capacity, start, steps: all });
        const into = start + sum(all.map((step) => step.inflow));
        const given = sum(all.map((step) => step.demand)) - sum(shortfall);
        expect(Math.abs(into - given - sum(overflow) - (stored.at(-1) ?? start))).toBeLessThan(1e-9);
        for (const value of [...stored, ...overflow, ...shortfall]) expect(value).toBeGreaterThanOrEqual(0);
        for (const value of stored) expect(value).toBeLessThanOrEqual(capacity);
      }),
    );
  });

  it('does not start fuller than full', () => {
    expect(() => storageBalance({ capacity: 5, start: 6, steps: [] })).toThrow(/found 6 m³ in a store of 5 m³/);
  });
});
