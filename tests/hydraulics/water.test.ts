import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import iapws from '../../data/water-properties.json' with { type: 'json' };
import { WATER_TEMPERATURE, waterAt } from '../../src/hydraulics/water.ts';

/** The columns of the table, by IAPWS-95 and IAPWS 2008 viscosity; independent of the formulas, which are older fits. */
interface Row {
  readonly temperature: number;
  readonly density: number;
  readonly viscosity: number;
  readonly vapourPressure: number;
  readonly bulkModulus: number;
  readonly soundSpeed: number;
}

const rows: Row[] = iapws.rows.map((cells) => {
  const cell = (name: string): number => cells[iapws.columns.indexOf(name)] ?? Number.NaN;
  return {
    temperature: cell('temperature_C'),
    density: cell('density_kg_m3'),
    viscosity: cell('kinematic_viscosity_mm2_s') * 1e-6,
    vapourPressure: cell('vapour_pressure_kPa') * 1000,
    bulkModulus: cell('bulk_modulus_isentropic_GPa') * 1e9,
    soundSpeed: cell('sound_speed_m_s'),
  };
});

/** Greatest relative differences: the last printed digit of the table plus what the formula's paper states. */
const tolerance = { density: 2e-5, viscosity: 2e-4, vapourPressure: 1e-4, bulkModulus: 1.5e-4, soundSpeed: 7e-5 };

describe('water from 0 to 60 °C', () => {
  it.each(rows)('agrees with IAPWS at $temperature °C', (row) => {
    const water = waterAt(row.temperature);
    for (const name of Object.keys(tolerance) as (keyof typeof tolerance)[]) {
      const difference = Math.abs(water[name] / row[name] - 1);
      expect(difference, name).toBeLessThanOrEqual(tolerance[name]);
    }
  });

  it('gets thinner and its vapour pressure rises as it warms', () => {
    const temperature = fc.double({ min: WATER_TEMPERATURE.least, max: WATER_TEMPERATURE.most, noNaN: true });
    fc.assert(
      fc.property(temperature, temperature, (a, b) => {
        fc.pre(Math.abs(a - b) > 1e-6);
        const [cold, warm] = [waterAt(Math.min(a, b)), waterAt(Math.max(a, b))];
        expect(warm.viscosity).toBeLessThan(cold.viscosity);
        expect(warm.vapourPressure).toBeGreaterThan(cold.vapourPressure);
        expect(warm.soundSpeed).toBeGreaterThan(cold.soundSpeed);
      }),
    );
  });

  it.each([-0.1, 60.1, Number.NaN])('says nothing of water at %d °C', (temperature) => {
    expect(() => waterAt(temperature)).toThrow(/expected 0 to 60 °C/);
  });
});
