import { describe, expect, it } from 'vitest';
import atmosphere from '../../data/atmosphere.json' with { type: 'json' };
import { airPressure, vapourHead } from '../../src/hydraulics/suction.ts';
import { waterAt } from '../../src/hydraulics/water.ts';

const rows = atmosphere.rows.map(([altitude = Number.NaN, kilopascal = Number.NaN, head = Number.NaN]) => ({
  altitude,
  pressure: kilopascal * 1000,
  head,
}));

describe('air and suction', () => {
  it.each(rows)('the air at $altitude m weighs what ISO 2533 prints', ({ altitude, pressure, head }) => {
    // Printed to 0.1 Pa and 0.1 mm of water at 15 °C.
    expect(Math.abs(airPressure(altitude) - pressure)).toBeLessThanOrEqual(0.1);
    const water = waterAt(15);
    const vacuum = { ...water, vapourPressure: 0 };
    expect(Math.abs(vapourHead({ airPressure: airPressure(altitude), water: vacuum }) - head)).toBeLessThanOrEqual(
      2e-4,
    );
  });

  it('a siphon holds less the higher and the warmer it is', () => {
    const limit = (altitude: number, temperature: number): number =>
      vapourHead({ airPressure: airPressure(altitude), water: waterAt(temperature) });
    expect(limit(1500, 15)).toBeLessThan(limit(0, 15));
    expect(limit(0, 40)).toBeLessThan(limit(0, 15));
    // 101.325 kPa less 1.7058 kPa (IAPWS at 15 °C) over 999.103 kg/m³ and standard gravity.
    expect(limit(0, 15)).toBeCloseTo((101_325 - 1705.8) / (999.103 * 9.80665), 3);
  });

  it.each([-2001, 11_001, Number.NaN])('says nothing of the air at %d m', (altitude) => {
    expect(() => airPressure(altitude)).toThrow(/expected -2000 to 11000 m/);
  });
});
