import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { asIs, kilopascals, litres, litresPerMinute, millimetres, type Scale } from '../../src/plan/file/scale.ts';

const scales: readonly (readonly [string, Scale])[] = [
  ['metres', asIs],
  ['millimetres', millimetres],
  ['litres', litres],
  ['litres a minute', litresPerMinute],
  ['kilopascals', kilopascals],
];

/** What people type: six digits at most, anywhere from 0.000001 to 999999000. */
const typed = fc
  .tuple(fc.integer({ min: -999_999, max: 999_999 }), fc.integer({ min: -6, max: 3 }))
  .map(([digits, power]) => Number(`${digits}e${power}`) + 0);

describe.each(scales)('%s in the file', (_, scale) => {
  test('a number somebody typed comes back digit for digit', () => {
    fc.assert(
      fc.property(typed, (value) => Object.is(scale.toFile(scale.fromFile(value)), value)),
      { numRuns: 5000 },
    );
  });

  test('what was read once is written and read to the last bit', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (file) => {
        const si = scale.fromFile(file);
        return Object.is(scale.fromFile(scale.toFile(si)), si);
      }),
      { numRuns: 5000 },
    );
  });

  test('any value is written to within a rounding', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-9, max: 1e6, noNaN: true }), (si) => {
        const back = scale.fromFile(scale.toFile(si));
        return Math.abs(back - si) <= 2 ** -51 * si;
      }),
    );
  });
});

// Closed form: 1 m³ = 1000 L and 1 min = 60 s by definition (SI Brochure, BIPM, 9th edition, 2019, table 8).
test('the units are the defined ones', () => {
  expect(millimetres.fromFile(25.4)).toBe(0.0254);
  expect(litres.fromFile(1)).toBe(0.001);
  expect(litresPerMinute.fromFile(60)).toBe(0.001);
  expect(kilopascals.fromFile(101.325)).toBe(101_325);
});
