import { describe, expect, it } from 'vitest';
import { pipeFlow } from '../../src/hydraulics/pipe-flow.ts';
import { waterAt } from '../../src/hydraulics/water.ts';
import { FOOT_M, INCH_M, MINUTE_S, US_GALLON_M3 } from '../../src/units/factor.ts';
import { hazenWilliamsLoss } from './hazen-williams.ts';

/** Bore in, flow gal/min, loss ft in 100 ft, tolerance. Illinois Administrative Code, title 77, part 906, appendix A, exhibit I. */
const printed: readonly (readonly [number, number, number, number])[] = [
  [1.049, 5, 1.52, 0.015],
  [1.38, 15, 3.06, 0.01],
  [1.38, 20, 5.23, 0.01],
  [1.61, 30, 5.22, 0.01],
  [2.067, 30, 1.54, 0.01],
  [3.068, 100, 2.09, 0.01],
];

describe('Hazen-Williams', () => {
  it.each(printed)('%d in of C 150 at %d gal/min loses %d ft in 100 ft', (bore, gallons, feet, tolerance) => {
    const loss = hazenWilliamsLoss({
      flow: (gallons * US_GALLON_M3) / MINUTE_S,
      bore: bore * INCH_M,
      length: 100 * FOOT_M,
      coefficient: 150,
    });
    expect(Math.abs(loss / (feet * FOOT_M) - 1)).toBeLessThanOrEqual(tolerance);
  });

  it('runs backwards as it runs forwards', () => {
    const pipe = { bore: 0.025, length: 50, coefficient: 150 };
    expect(hazenWilliamsLoss({ ...pipe, flow: -0.0003 })).toBe(-hazenWilliamsLoss({ ...pipe, flow: 0.0003 }));
    expect(hazenWilliamsLoss({ ...pipe, flow: 0 })).toBe(0);
  });

  it.each([0.0158, 0.0209, 0.0266])('smooth plastic of %d m in cold water is like C 125 to 140, not 150', (bore) => {
    // Why it is a comparison only. Coefficients worked out from Colebrook at 10 °C and 0.2 to 0.6 m/s.
    for (const speed of [0.3, 0.45, 0.6]) {
      const flow = (speed * Math.PI * bore * bore) / 4;
      const { viscosity } = waterAt(10);
      const loss = pipeFlow({ bore, length: 100, roughness: 1.5e-6, k: 0, viscosity }).headLoss(flow);
      const ofOne = hazenWilliamsLoss({ flow, bore, length: 100, coefficient: 1 });
      const coefficient = (ofOne / loss) ** (1 / 1.852);
      expect(coefficient).toBeGreaterThan(120);
      expect(coefficient).toBeLessThan(141);
    }
  });
});
