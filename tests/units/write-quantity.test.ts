import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { QuantityKind, UnitSystem } from '../../src/units/kind.ts';
import { readQuantity } from '../../src/units/read-quantity.ts';
import { writeDifference, writeEntered, writeQuantity, writeRange } from '../../src/units/write-quantity.ts';

/** Arithmetic with the exact factors of NIST SP 811 (2008) appendix B, rounded by hand. */
const shown: readonly (readonly [number, QuantityKind, string, string])[] = [
  [2.5146, 'height', '2.51 m', '8.3 ft'],
  [-0.001, 'height', '0.00 m', '0 in'],
  [-3, 'height', '−3.00 m', '−9.8 ft'],
  [163.42, 'length', '163.4 m', '536 ft'],
  [12.34, 'length', '12.3 m', '40.5 ft'],
  [12_345, 'length', '12 345.0 m', '40,502 ft'],
  [0.0157988, 'bore', '15.8 mm', '0.622 in'],
  [0.000125, 'flow', '7.50 L/min', '1.98 gal/min'],
  [0.01, 'flow', '600 L/min', '159 gal/min'],
  [0, 'flow', '0 L/day', '0 gal/day'],
  [3.943e-7, 'flow', '34 L/day', '9 gal/day'],
  [1.2e-6, 'flow', '104 L/day', '27 gal/day'],
  [0.0000015, 'bore', '0.0015 mm', '0.059 mil'],
  [0.00015, 'bore', '0.15 mm', '5.9 mil'],
  [0.04, 'bore', '40 mm', '1.575 in'],
  [0.0127, 'height', '0.01 m', '0.5 in'],
  [0.25, 'length', '0.3 m', '9.8 in'],
  [0.0002, 'volume', '0.2 L', '6.8 fl oz'],
  [0.00005, 'volume', '50 mL', '1.7 fl oz'],
  [5.678, 'daily-volume', '5680 L/day', '1,500 gal/day'],
  [2.4127, 'daily-volume', '2410 L/day', '637 gal/day'],
  [0.0095, 'volume', '9.5 L', '2.51 gal'],
  [25, 'volume', '25 m³', '6,600 gal'],
  [0.00018, 'daily-volume', '0.180 L/day', '6.1 fl oz/day'],
  [65_000, 'pressure', '0.65 bar', '9.4 psi'],
  [1_034_213.6, 'pressure', '10.34 bar', '150 psi'],
  [1.524, 'velocity', '1.52 m/s', '5.0 ft/s'],
  [10, 'temperature', '10 °C', '50 °F'],
  [0.35, 'share', '35 %', '35%'],
  [0.012, 'share', '1.2 %', '1.2%'],
  [7.456, 'ratio', '7.46', '7.46'],
  [12.5, 'duration', '12.5 s', '12.5 s'],
  [600, 'duration', '10 min', '10 min'],
  [259_200, 'duration', '3.0 days', '3.0 days'],
  [0.43, 'mass', '430 g', '15.2 oz'],
  [1.25, 'mass', '1.25 kg', '2.76 lb'],
  [40, 'count', '40', '40'],
];

describe('a quantity as it is shown', () => {
  it.each(shown)('%d as a %s', (value, kind, metric, us) => {
    const plain = (text: string) => text.replaceAll('\u202f', ' ');
    expect(plain(writeQuantity(value, kind, 'metric'))).toBe(metric);
    expect(plain(writeQuantity(value, kind, 'us'))).toBe(us);
  });

  it('never breaks between a number and its unit, or within a number', () => {
    expect(writeQuantity(12_345, 'length', 'metric')).toBe('12\u202f345.0\u202fm');
  });

  it('a range names its unit once, the one that suits its upper end', () => {
    expect(writeRange(0.9, 2.4, 'daily-volume', 'metric')).toBe('900 to 2400\u202fL/day');
    expect(writeRange(60_000, 250_000, 'pressure', 'metric')).toBe('0.60 to 2.50\u202fbar');
    expect(writeRange(1.001, 1.002, 'height', 'metric')).toBe('1.00\u202fm');
  });

  it('no text is made of what is not a number', () => {
    expect(() => writeQuantity(Number.NaN, 'height', 'metric')).toThrow(/found NaN as height/);
  });
});

const ranges: Readonly<Record<QuantityKind, readonly [number, number]>> = {
  height: [-9000, 9000],
  length: [0, 100_000],
  bore: [0.003, 0.5],
  flow: [0, 1],
  'daily-volume': [0, 10_000],
  volume: [0, 10_000],
  pressure: [-100_000, 5e6],
  ratio: [0, 1000],
  share: [0, 1],
  velocity: [0, 30],
  duration: [0, 1e8],
  temperature: [0, 60],
  mass: [0, 100],
  count: [0, 1_000_000],
};

/** Size of the last digit written, with the unit that was written after it. */
function lastDigit(text: string, kind: QuantityKind): number {
  const [number = '', ...unit] = text.replace('\u2212', '').split(/\u202f(?!\d{3}(?:\D|$))/);
  const digits = number.replaceAll(/[\u202f,]/g, '');
  const decimals = digits.split('.')[1]?.length ?? 0;
  const trailing = decimals === 0 ? Math.max(0, digits.length - 3) : 0;
  const exponent = kind === 'flow' || kind === 'daily-volume' || kind === 'volume' ? trailing : 0;
  const one = readQuantity(`${(10 ** (exponent - decimals)).toFixed(decimals)} ${unit.join(' ')}`, kind);
  const zero = readQuantity(`0 ${unit.join(' ')}`, kind);
  if (!one.ok || !zero.ok) throw new Error(`cannot read the last digit of ${text}`);
  return one.value - zero.value;
}

describe('what is shown can be typed in again', () => {
  it.each(Object.keys(ranges) as QuantityKind[])('%s, to half of its last digit', (kind) => {
    const [min, max] = ranges[kind];
    fc.assert(
      fc.property(
        fc.double({ min, max, noNaN: true }),
        fc.constantFrom<UnitSystem>('metric', 'us'),
        (drawn, system) => {
          const value = kind === 'count' ? Math.round(drawn) : drawn;
          const text = writeQuantity(value, kind, system);
          const reading = readQuantity(text, kind, system === 'us' ? { loneComma: 'thousands' } : {});
          expect(reading).toMatchObject({ ok: true });
          if (!reading.ok) return;
          const half = lastDigit(text, kind) * 0.5;
          expect(Math.abs(reading.value - value)).toBeLessThanOrEqual(half * (1 + 1e-9) + Math.abs(value) * 1e-11);
        },
      ),
    );
  });
});

/** 1 ft = 0.3048 m, 1 gal = 3.785411784 L: NIST SP 811 (2008) appendix B. */
const entered: readonly (readonly [number, QuantityKind, string, string])[] = [
  [1.2192, 'height', '1.2192 m', '4 ft'],
  [2.5146, 'height', '2.5146 m', '8 ft 3 in'],
  [-4.4196, 'height', '−4.4196 m', '−14 ft 6 in'],
  [1.2, 'height', '1.2 m', '3.9 ft'],
  [0.05, 'height', '0.05 m', '2 in'],
  [0.946352946, 'volume', '946 L', '250 gal'],
  [1, 'volume', '1000 L', '264 gal'],
  [0.04, 'bore', '40 mm', '1.575 in'],
  [0.0127, 'bore', '12.7 mm', '0.5 in'],
  [0.00025, 'flow', '15 L/min', '3.96 gal/min'],
];

describe('a quantity in the field where it was typed', () => {
  it.each(entered)('%d as a %s', (value, kind, metric, us) => {
    const plain = (text: string) => text.replaceAll('\u202f', ' ');
    expect(plain(writeEntered(value, kind, 'metric'))).toBe(metric);
    expect(plain(writeEntered(value, kind, 'us'))).toBe(us);
  });
});

describe('a difference', () => {
  const perDay = (litres: number) => litres / 1000;

  it('is that of the numbers as they are written beside it', () => {
    expect(writeDifference([30.514, 24.268], 'height', 'metric')).toBe('−6.24\u202fm');
    expect(writeDifference([perDay(1268), perDay(1594)], 'daily-volume', 'metric')).toBe('+320\u202fL/day');
  });

  it('has the coarser digits of the two', () => {
    expect(writeDifference([perDay(998), perDay(1012)], 'daily-volume', 'metric')).toBe('+10\u202fL/day');
  });

  it('is none between numbers that are written alike', () => {
    expect(writeDifference([12.001, 12.004], 'height', 'metric')).toBeNull();
  });

  it('stands in the unit of the larger', () => {
    // 1 ft = 0.3048 m exactly.
    expect(writeDifference([3.048, 6.096], 'height', 'us')).toBe('+10.0\u202fft');
    expect(writeDifference([0.5, 20], 'volume', 'metric')).toBe('+19.5\u202fm³');
  });

  it('leaves the zero of a temperature scale out', () => {
    // 5 K are 9 °F.
    expect(writeDifference([10, 15], 'temperature', 'us')).toBe('+9.0\u202f°F');
  });
});
