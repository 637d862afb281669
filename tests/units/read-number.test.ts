import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readNumber } from '../../src/units/read-number.ts';

const digits = fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 1, maxLength: 8 }).map((all) => all.join(''));
const whole = fc.integer({ min: 0, max: 999_999_999 });

/** Thousands grouped by a mark, as in ISO 80000-1 with a space, or as in English with a comma. */
const grouped = (value: number, mark: string): string => String(value).replace(/\B(?=(\d{3})+$)/g, mark);

describe('a written number', () => {
  it('is the same with a decimal comma as with a decimal point, unless the comma may mark thousands', () => {
    fc.assert(
      fc.property(whole, digits, (before, after) => {
        const [point, comma] = [readNumber(`${before}.${after}`), readNumber(`${before},${after}`)];
        expect(point).toEqual({ ok: true, value: Number(`${before}.${after}`) });
        const unclear = after.length === 3 && before > 0 && before < 1000;
        if (unclear) expect(comma).toMatchObject({ ok: false, code: 'ambiguous-number' });
        else expect(comma).toEqual(point);
      }),
    );
  });

  it('may group its thousands when nothing else can be meant', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1_000_000, max: 999_999_999 }), digits, (value, after) => {
        for (const mark of [' ', ',', '.']) expect(readNumber(grouped(value, mark))).toEqual({ ok: true, value });
        const decimal = Number(`${value}.${after}`);
        expect(readNumber(`${grouped(value, ',')}.${after}`)).toEqual({ ok: true, value: decimal });
        expect(readNumber(`${grouped(value, '.')},${after}`)).toEqual({ ok: true, value: decimal });
        expect(readNumber(`${grouped(value, ' ')},${after}`)).toEqual({ ok: true, value: decimal });
      }),
    );
  });

  it('may be a fraction, alone or after a whole', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 99 }),
        fc.integer({ min: 1, max: 63 }),
        fc.constantFrom(2, 4, 8, 16, 32, 64),
        (n, a, b) => {
          for (const text of [`${n}-${a}/${b}`, `${n} ${a}/${b}`])
            expect(readNumber(text)).toEqual({ ok: true, value: n + a / b });
          expect(readNumber(`-${a}/${b}`)).toEqual({ ok: true, value: -a / b });
        },
      ),
    );
  });

  it.each([
    '',
    '-',
    '.',
    ',',
    '1..2',
    '1,,2',
    '1.2.3',
    '12,34,567',
    '1,234.567,8',
    '1 23',
    '0x10',
    '1e',
    'Infinity',
    'NaN',
    '1/0',
    '--1',
  ])('%j is none', (text) => {
    expect(readNumber(text)).toMatchObject({ ok: false });
  });
});
