import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { moneyWords, pricedAnew, readPrice, writePrice } from '../../../src/report/words/money-words.ts';

describe('money', () => {
  test('is written to the hundredth with the currency behind it, in groups of three from five digits on', () => {
    expect(moneyWords(1234.5, 'crowns', 'metric')).toBe('1234.50 crowns');
    expect(moneyWords(12345.678, '', 'metric')).toBe('12\u202f345.68');
    expect(moneyWords(-3, '', 'metric')).toBe('−3.00');
  });

  test('a price of a foot is 0.3048 of the price of a metre', () => {
    // 1 ft = 0.3048 m by definition: NIST SP 811, 2008, appendix B.
    const reading = readPrice('0.85', 'length', 'us');
    expect(reading.ok && reading.value * 0.3048).toBeCloseTo(0.85, 12);
    expect(readPrice('0,85', 'length', 'metric')).toEqual({ ok: true, value: 0.85 });
    expect(readPrice('12', 'piece', 'us')).toEqual({ ok: true, value: 12 });
  });

  test('a price that was typed is shown as it was typed, in either system', () => {
    const cents = fc.integer({ min: 0, max: 1_000_000 }).map((n) => n / 100);
    fc.assert(
      fc.property(cents, fc.constantFrom('metric', 'us'), fc.constantFrom('length', 'piece'), (price, units, by) => {
        const reading = readPrice(String(price), by, units);
        expect(reading.ok && Number(writePrice(reading.value, by, units))).toBe(price);
      }),
    );
  });

  test('words and negative numbers are refused', () => {
    expect(readPrice('cheap', 'piece', 'metric').ok).toBe(false);
    expect(readPrice('-4', 'piece', 'metric').ok).toBe(false);
  });

  test('keeps its figure when it is for a coil instead of a foot', () => {
    const typed = readPrice('90', 'length', 'us');
    const price = { item: 'pipe', unit: 'metre', price: typed.ok ? typed.value : 0, pack: 30.48 } as const;
    const coil = pricedAnew(price, 'piece', 'us');
    expect(coil.unit).toBe('piece');
    expect(writePrice(coil.price, 'piece', 'us')).toBe('90');
    expect(pricedAnew(coil, 'length', 'us').price).toBeCloseTo(price.price, 9);
  });
});
