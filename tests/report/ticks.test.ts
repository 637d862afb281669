import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { roundTicks } from '../../src/report/figure/ticks.ts';

const span = fc.record({
  from: fc.double({ min: -500, max: 9000, noNaN: true }),
  length: fc.double({ min: 0.01, max: 20_000, noNaN: true }),
  most: fc.integer({ min: 2, max: 40 }),
});

describe('round ticks', () => {
  it('never are more than asked for, lie inside, and stand one round step apart', () => {
    fc.assert(
      fc.property(span, ({ from, length, most }) => {
        const { values, step } = roundTicks({ from, to: from + length }, most);
        expect(values.length).toBeLessThanOrEqual(most);
        expect(['1', '2', '5']).toContain(step.toExponential(0).slice(0, 1));
        for (const value of values) {
          expect(value).toBeGreaterThanOrEqual(from - step * 1e-6);
          expect(value).toBeLessThanOrEqual(from + length + step * 1e-6);
          expect(Math.abs(value / step - Math.round(value / step))).toBeLessThan(1e-6);
        }
      }),
    );
  });

  it('use the room: half the step would be too many', () => {
    fc.assert(
      fc.property(span, ({ from, length, most }) => {
        const { step } = roundTicks({ from, to: from + length }, most);
        const finer = step.toExponential(0).startsWith('5') ? step * 0.4 : step / 2;
        const count = Math.floor((from + length) / finer + 1e-9) - Math.ceil(from / finer - 1e-9) + 1;
        expect(count).toBeGreaterThan(most - 1);
      }),
    );
  });

  it('write their values with the digits that tell them apart', () => {
    expect(roundTicks({ from: 0, to: 1 }, 6)).toEqual({ step: 0.2, values: [0, 0.2, 0.4, 0.6, 0.8, 1], digits: 1 });
    expect(roundTicks({ from: 160, to: 212 }, 4)).toEqual({ step: 20, values: [160, 180, 200], digits: 0 });
  });
});
