import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { KINDS, type QuantityKind } from '../../src/units/kind.ts';
import { readQuantity } from '../../src/units/read-quantity.ts';

/** SI values follow from NIST SP 811 (2008) appendix B: ft 0.3048 m, in 0.0254 m, US gal 3.785411784 L, psi 6894.757 Pa. */
const written: readonly (readonly [string, QuantityKind, number])[] = [
  ['5m', 'length', 5],
  ['16mm', 'bore', 0.016],
  ['0.622in', 'bore', 0.0157988],
  ['1.049 in', 'bore', 0.0266446],
  ['0,622 in', 'bore', 0.0157988],
  ['3/4 in', 'bore', 0.01905],
  ['1-1/4in', 'bore', 0.03175],
  ['1 1/4"', 'bore', 0.03175],
  ['1¼ in.', 'bore', 0.03175],
  ['½″', 'bore', 0.0127],
  ['8 ft 3 in', 'height', 2.5146],
  [`8'3"`, 'height', 2.5146],
  ['8′ 3½″', 'height', 2.5273],
  ["8''", 'bore', 0.2032],
  [`5'-3"`, 'height', 1.6002],
  ['8 ft, 3 in', 'height', 2.5146],
  ['8 feet 3 inches', 'height', 2.5146],
  ['-8 ft 3 in', 'height', -2.5146],
  ['−1,5 m', 'height', -1.5],
  ['1 200 m', 'length', 1200],
  ['12\u202f500.5 m', 'length', 12_500.5],
  ['1,200,000 mm', 'length', 1200],
  ['1,200.5 m', 'length', 1200.5],
  ['1.200,5 m', 'length', 1200.5],
  ['1.200 m', 'length', 1.2],
  ['2 miles', 'length', 3218.688],
  ['1.5e3 m', 'length', 1500],
  ['7,5 l/min', 'flow', 0.000125],
  ['2 gal/min', 'flow', (2 * 0.003785411784) / 60],
  ['3gal/min', 'flow', (3 * 0.003785411784) / 60],
  ['1.5 gpm', 'flow', (1.5 * 0.003785411784) / 60],
  ['2 US gallons per minute', 'flow', (2 * 0.003785411784) / 60],
  ['2 imp gal/min', 'flow', (2 * 0.00454609) / 60],
  ['2 igpm', 'flow', (2 * 0.00454609) / 60],
  ['0.7 m³/h', 'flow', 0.7 / 3600],
  ['0.7m3/h', 'flow', 0.7 / 3600],
  ['1 ft3/s', 'flow', 0.028316846592],
  ['600 gal/day', 'daily-volume', 2.2712470704],
  ['2400 litres a day', 'daily-volume', 2.4],
  ['50 L', 'daily-volume', 0.05],
  ['1 L/s', 'daily-volume', 86.4],
  ['5 gal', 'volume', 0.01892705892],
  ['2 m3', 'volume', 2],
  ['150 psi', 'pressure', 1_034_213.59],
  ['6 bar', 'pressure', 600_000],
  ['400 kPa', 'pressure', 400_000],
  ['20 m head', 'pressure', 196_133],
  ['10 ft of water', 'pressure', 29_890.6692],
  ['10C', 'temperature', 10],
  ['50 F', 'temperature', 10],
  ['10 º C', 'temperature', 10],
  ['50 deg F', 'temperature', 10],
  ['-4 °F', 'temperature', -20],
  ['283.15 K', 'temperature', 10],
  ['5 ft/s', 'velocity', 1.524],
  ['1 h 30 min', 'duration', 5400],
  ['3 days', 'duration', 259_200],
  ['1:10', 'duration', 70],
  ['0:31.5', 'duration', 31.5],
  ['1:02:03', 'duration', 3723],
  ['1 min 10', 'duration', 70],
  ['1,500 gal', 'volume', 1500 * 0.003785411784],
  ['1,500 gals/day', 'daily-volume', 1500 * 0.003785411784],
  ['1,200 ft', 'length', 365.76],
  ['200 yds', 'length', 182.88],
  ['2 gals/min', 'flow', (2 * 0.003785411784) / 60],
  ['8 feet 3', 'height', 2.5146],
  ["8' 3", 'height', 2.5146],
  ['0.06 mil', 'bore', 0.000001524],
  ['40 lb/in2', 'pressure', 275_790.29],
  ['40 lbs per sq in', 'pressure', 275_790.29],
  ['40 pounds per square inch', 'pressure', 275_790.29],
  ['2 lb 4 oz', 'mass', 1.02058283],
  ['12.5s', 'duration', 12.5],
  ['35 %', 'share', 0.35],
  ['0.35', 'share', 0.35],
  ['7', 'ratio', 7],
  ['40', 'count', 40],
];

describe('a quantity as people write it', () => {
  it.each(written)('%s is understood as a %s', (text, kind, value) => {
    const reading = readQuantity(text, kind);
    expect(reading).toMatchObject({ ok: true });
    if (reading.ok) expect(Math.abs(reading.value - value)).toBeLessThanOrEqual(Math.abs(value) * 1e-8);
  });

  it('takes a bare number only where the field says its unit', () => {
    expect(readQuantity('5', 'length')).toMatchObject({ ok: false, code: 'unit-missing' });
    expect(readQuantity('5', 'length', { bareUnit: 'foot' })).toEqual({ ok: true, value: 1.524 });
    expect(readQuantity('5 m', 'length', { bareUnit: 'foot' })).toEqual({ ok: true, value: 5 });
  });

  it('takes a degree sign alone for the scale of the field', () => {
    expect(readQuantity('50°', 'temperature', { bareUnit: 'fahrenheit' })).toEqual({ ok: true, value: 10 });
    expect(readQuantity('10°', 'temperature', { bareUnit: 'celsius' })).toEqual({ ok: true, value: 10 });
    expect(readQuantity('55°', 'temperature')).toMatchObject({ ok: false, code: 'unit-missing' });
  });
});

const refused: readonly (readonly [string, QuantityKind, string])[] = [
  ['', 'length', 'empty'],
  ['  ', 'length', 'empty'],
  ['5', 'flow', 'unit-missing'],
  ['35', 'share', 'unit-missing'],
  ['about 5 m', 'length', 'not-a-number'],
  ['m', 'length', 'not-a-number'],
  ['NaN m', 'length', 'not-a-number'],
  ['1e999 m', 'length', 'not-a-number'],
  ['1/0 in', 'bore', 'not-a-number'],
  ['1,20,300 m', 'length', 'not-a-number'],
  ['1.2.3 m', 'length', 'not-a-number'],
  ['5 - 6 m', 'length', 'not-a-number'],
  ['5 cubits', 'length', 'unit-unknown'],
  ['5 m/furlong', 'velocity', 'unit-unknown'],
  ['5 psi', 'length', 'unit-unfit'],
  ['5 L', 'flow', 'unit-unfit'],
  ['5 m', 'pressure', 'unit-unfit'],
  ['8 ft 14 in', 'height', 'parts-unfit'],
  ['8 feet 14', 'height', 'parts-unfit'],
  ['1:75', 'duration', 'unit-unknown'],
  ['1:10', 'length', 'unit-unknown'],
  ['3 in 8 ft', 'height', 'parts-unfit'],
  ['8 m 3 in', 'height', 'parts-unfit'],
  ['2.5', 'count', 'not-a-number'],
];

describe('a quantity that cannot be taken', () => {
  it.each(refused)('%s as a %s is refused as %s', (text, kind, code) => {
    const reading = readQuantity(text, kind);
    expect(reading).toMatchObject({ ok: false, code, found: text });
    if (!reading.ok) expect(reading.expected).not.toBe('');
  });

  it('a lone comma before three digits is asked about with both readings', () => {
    expect(readQuantity('1,200 m', 'length')).toEqual({
      ok: false,
      code: 'ambiguous-number',
      kind: 'length',
      found: '1,200 m',
      expected: '1200 or 1.200',
      readings: ['1200 m', '1.200 m'],
    });
  });

  it('but is thousands where the writer is known to write so, and before a unit that is never written with a decimal comma', () => {
    expect(readQuantity('1,200 m', 'length', { loneComma: 'thousands' })).toEqual({ ok: true, value: 1200 });
    expect(readQuantity('1,049 in', 'bore')).toMatchObject({ ok: false, code: 'ambiguous-number' });
  });
});

describe('whatever is typed', () => {
  const scraps = fc.constantFrom(
    '1',
    '12',
    '3/4',
    '-',
    '+',
    '.',
    ',',
    ' ',
    "'",
    '"',
    'm',
    'ft',
    'in',
    'gal',
    '/',
    'min',
    'e',
    '%',
    '½',
    '°C',
    '1,200',
  );
  const texts = fc.oneof(
    fc.string({ unit: 'grapheme' }),
    fc.array(scraps, { maxLength: 8 }).map((parts) => parts.join('')),
  );
  const kinds = fc.constantFrom(...(Object.keys(KINDS) as QuantityKind[]));

  it('is a finite number or a refusal that says what was found and what is expected', () => {
    fc.assert(
      fc.property(texts, kinds, (text, kind) => {
        const reading = readQuantity(text, kind);
        if (reading.ok) expect(Number.isFinite(reading.value)).toBe(true);
        else expect(reading).toMatchObject({ found: text, expected: expect.stringMatching(/./) });
      }),
      { numRuns: 3000 },
    );
  });

  it('is never read as a number that was not written: digits that are left out change the answer', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 999_999 }), fc.constantFrom('m', 'ft', 'mm'), (number, unit) => {
        const [whole, more] = [
          readQuantity(`${number} ${unit}`, 'length'),
          readQuantity(`${number}7 ${unit}`, 'length'),
        ];
        expect(whole.ok && more.ok && more.value > whole.value * 9.99).toBe(true);
      }),
    );
  });
});
