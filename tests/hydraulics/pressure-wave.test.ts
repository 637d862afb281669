import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { joukowskyHead, waveSpeed } from '../../src/hydraulics/pressure-wave.ts';
import { waterAt } from '../../src/hydraulics/water.ts';

const INCH = 0.0254;
const FOOT = 0.3048;
const PSI = 6894.757;

/** Bore and wall, mm, modulus, GPa, speed m/s; worked out from Korteweg's formula apart from this program, K 2.19 GPa. */
const worked: readonly (readonly [string, number, number, number, number])[] = [
  ['steel, Schedule 40, 1/2 in', 15.8, 2.77, 207, 1438.4],
  ['steel, Schedule 40, 1 in', 26.64, 3.38, 207, 1423.1],
  ['steel, Schedule 40, 4 in', 102.26, 6.02, 207, 1363.7],
  ['copper, type L, 1 in', 26.04, 1.27, 117, 1259.2],
  ['PVC, Schedule 40, 1 in', 26.64, 3.38, 2.76, 550],
  ['PE4710, SIDR 7, 1 in', 26.64, 3.81, 1.034, 372.5],
  ['PE100, SDR 11, 63 mm', 51.4, 5.8, 1, 327.9],
  ['PE100, SDR 17, 63 mm', 55.4, 3.8, 1, 258.1],
];

describe('pressure waves', () => {
  it.each(worked)('run through %s as worked out elsewhere', (_, bore, wall, modulus, speed) => {
    const pipe = { bore: bore / 1000, wall: wall / 1000, modulus: modulus * 1e9 };
    const found = waveSpeed({ ...pipe, bulkModulus: 2.19e9, density: 998.2 });
    expect(Math.abs(found - speed)).toBeLessThanOrEqual(0.06 + speed * 5e-5);
  });

  it.each([
    [14, 19.8],
    [18, 17.4],
    [25, 14.7],
  ])('raise PVC of DR %d by %d psi for each foot a second taken away', (ratio, psi) => {
    // Surge pressures of AWWA C900 and M23 (from memory): K 300 000 psi, E 400 000 psi, 4660 ft/s in unbounded water, 62.4 lb/ft³.
    const wall = 0.3 * INCH;
    const speed = waveSpeed({
      bulkModulus: 300_000 * PSI,
      density: (300_000 * PSI) / (4660 * FOOT) ** 2,
      bore: (ratio - 2) * wall,
      wall,
      modulus: 400_000 * PSI,
    });
    const head = joukowskyHead({ waveSpeed: speed, velocityChange: FOOT });
    expect(Math.abs((head * 62.4 * 16.01846 * 9.80665) / PSI - psi)).toBeLessThanOrEqual(0.1);
  });

  it('are those of the drive pipe worked example: 1.16 m/s in 1400 m/s raise 165.8 m', () => {
    // 1400 × 0.7 × 1.6594 / 9.80665.
    expect(joukowskyHead({ waveSpeed: 1400, velocityChange: 0.7 * 1.6594 })).toBeCloseTo(165.8, 1);
  });

  it('run at the speed of sound where the wall cannot give', () => {
    const water = waterAt(10);
    const rigid = waveSpeed({ ...water, bore: 0.025, wall: 0.003, modulus: 1e20 });
    expect(rigid).toBeCloseTo(water.soundSpeed, 6);
  });

  const dimension = fc.double({ min: 0.005, max: 0.1, noNaN: true });
  const modulus = fc.double({ min: 8e8, max: 2.1e11, noNaN: true });

  it('are slower in a wider, thinner or softer pipe and never faster than sound', () => {
    fc.assert(
      fc.property(dimension, fc.double({ min: 0.001, max: 0.01, noNaN: true }), modulus, (bore, wall, e) => {
        const water = waterAt(15);
        const speed = (change: object): number => waveSpeed({ ...water, bore, wall, modulus: e, ...change });
        expect(speed({})).toBeLessThan(water.soundSpeed);
        expect(speed({ bore: bore * 1.2 })).toBeLessThan(speed({}));
        expect(speed({ wall: wall * 0.8 })).toBeLessThan(speed({}));
        expect(speed({ modulus: e * 0.8 })).toBeLessThan(speed({}));
        expect(speed({ restraint: 0.8 })).toBeGreaterThan(speed({}));
      }),
    );
  });
});
