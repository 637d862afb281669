import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findUnit } from '../../src/units/read-quantity.ts';
import { fromSi, toSi, UNITS, type UnitName } from '../../src/units/unit.ts';

/** NIST SP 811 (2008), appendix B.8, to the seven digits printed there; days, weeks and litres by definition. */
const printed: readonly (readonly [UnitName, number])[] = [
  ['foot', 0.3048],
  ['inch', 0.0254],
  ['yard', 0.9144],
  ['mile', 1609.344],
  ['usGallon', 3.785412e-3],
  ['usQuart', 9.463529e-4],
  ['usPint', 4.731765e-4],
  ['usFluidOunce', 2.957353e-5],
  ['imperialGallon', 4.54609e-3],
  ['cubicFoot', 2.831685e-2],
  ['usGallonPerMinute', 6.30902e-5],
  ['usGallonPerDay', 4.381264e-8],
  ['footPerSecond', 0.3048],
  ['psi', 6894.757],
  ['bar', 1e5],
  ['millibar', 100],
  ['metreHead', 9806.65],
  ['footHead', 2989.067],
  ['week', 604_800],
  ['litrePerMinute', 1e-3 / 60],
  ['pound', 4.535924e-1],
  ['ounce', 2.834952e-2],
];

describe('units', () => {
  it.each(printed)('one %s is %d in SI', (unit, value) => {
    expect(Math.abs(toSi(1, unit) / value - 1)).toBeLessThanOrEqual(2e-7);
  });

  it('temperatures meet at their fixed points', () => {
    // −40 is the same in °C and °F; water freezes at 32 °F and boils at 212 °F; absolute zero is −273.15 °C.
    expect(toSi(-40, 'fahrenheit')).toBeCloseTo(-40, 12);
    expect(toSi(32, 'fahrenheit')).toBeCloseTo(0, 12);
    expect(toSi(212, 'fahrenheit')).toBeCloseTo(100, 12);
    expect(fromSi(100, 'kelvin')).toBeCloseTo(373.15, 12);
  });

  it.each(Object.keys(UNITS) as UnitName[])('%s there and back is the same number', (unit) => {
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (value) => {
        const back = fromSi(toSi(value, unit), unit);
        const scale = Math.abs(value) + Math.abs(UNITS[unit].zero / UNITS[unit].factor);
        expect(Math.abs(back - value)).toBeLessThanOrEqual(1e-13 * scale + Number.MIN_VALUE * 1e10);
      }),
    );
  });

  it('every unit is found by the label it is written with', () => {
    for (const unit of Object.values(UNITS)) {
      if (unit.label === '') continue;
      const found = findUnit(unit.label);
      expect(found?.dimension, unit.label).toBe(unit.dimension);
      expect(Math.abs((found?.factor ?? 0) / unit.factor - 1), unit.label).toBeLessThanOrEqual(1e-15);
    }
  });

  it.each(['', '/', 'm/', '/s', 'm/s/s', 'm/m', 's/s', 'psi/s', 'constructor', 'toString'])('%j is no unit', (word) => {
    expect(findUnit(word)).toBeNull();
  });
});
