import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { frictionFactor, frictionLaw } from '../../src/hydraulics/friction-factor.ts';
import { churchill, haaland, swameeJain } from './other-friction-factors.ts';

/** Re, ε/D and the Colebrook, Swamee-Jain and Haaland factors, as computed with the open library fluids 1.3.1; six decimals. */
const grid: readonly (readonly [number, number, number, number, number])[] = [
  [4000, 0, 0.039907, 0.040551, 0.040423],
  [4000, 0.001, 0.04091, 0.041695, 0.041216],
  [1e4, 0, 0.030883, 0.030972, 0.030886],
  [1e4, 0.0001, 0.031037, 0.031149, 0.03099],
  [3e4, 0.0001, 0.023753, 0.023681, 0.02352],
  [1e5, 0, 0.01799, 0.017863, 0.017825],
  [1e5, 0.001, 0.022175, 0.022342, 0.021966],
  [1e6, 0.0001, 0.013441, 0.013508, 0.013326],
];

const reynolds = fc.double({ min: 1, max: 1e8, noNaN: true });
const relativeRoughness = fc.double({ min: 0, max: 0.05, noNaN: true });

describe('friction factor', () => {
  it.each(grid)('at Re %d and roughness %d of the bore', (re, rough, colebrook, swamee, haalands) => {
    const near = (value: number, printed: number): void =>
      expect(Math.abs(value / printed - 1)).toBeLessThanOrEqual(4e-5);
    near(frictionFactor({ reynolds: re, relativeRoughness: rough }), colebrook);
    near(swameeJain(re, rough), swamee);
    near(haaland(re, rough), haalands);
  });

  it('is that of the open library fluids to nine digits at Re 1e5 and roughness 1e-4', () => {
    const f = frictionFactor({ reynolds: 1e5, relativeRoughness: 1e-4 });
    expect(Math.abs(f / 0.018513866077471648 - 1)).toBeLessThanOrEqual(1e-9);
    expect(Math.abs(churchill(1e5, 1e-4) / 0.018462624566280075 - 1)).toBeLessThanOrEqual(1e-9);
  });

  it('solves Colebrook to the last digits in turbulent flow', () => {
    fc.assert(
      fc.property(fc.double({ min: 4000, max: 1e8, noNaN: true }), relativeRoughness, (re, rough) => {
        const root = 1 / Math.sqrt(frictionFactor({ reynolds: re, relativeRoughness: rough }));
        const left = -2 * Math.log10(rough / 3.7 + (2.51 * root) / re);
        expect(Math.abs(left - root)).toBeLessThanOrEqual(1e-13 * root);
      }),
    );
  });

  it('is 64 / Re in laminar flow, whatever the wall', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 2000, noNaN: true }), relativeRoughness, (re, rough) => {
        expect(frictionFactor({ reynolds: re, relativeRoughness: rough })).toBeCloseTo(64 / re, 12);
      }),
    );
  });

  it('friction rises with flow everywhere, through the transition too', () => {
    fc.assert(
      fc.property(reynolds, fc.double({ min: 1e-6, max: 1, noNaN: true }), relativeRoughness, (re, step, rough) => {
        const friction = frictionLaw(rough);
        expect(friction(re * (1 + step))).toBeGreaterThan(friction(re));
      }),
      { numRuns: 2000 },
    );
  });

  it.each([2000, 4000])('neither jumps nor kinks at Re %d', (edge) => {
    for (const rough of [0, 1e-4, 1e-3, 0.01, 0.05]) {
      const at = (re: number): number => Math.log(frictionFactor({ reynolds: re, relativeRoughness: rough }));
      const step = 1e-4;
      const before = (at(edge) - at(edge * (1 - step))) / -Math.log(1 - step);
      const after = (at(edge * (1 + step)) - at(edge)) / Math.log(1 + step);
      expect(Math.abs(after - before)).toBeLessThan(5e-3);
    }
  });

  it('is never less on a rougher wall', () => {
    fc.assert(
      fc.property(reynolds, relativeRoughness, relativeRoughness, (re, a, b) => {
        const [smooth, rough] = [Math.min(a, b), Math.max(a, b)];
        const f = (wall: number): number => frictionFactor({ reynolds: re, relativeRoughness: wall });
        expect(f(rough)).toBeGreaterThanOrEqual(f(smooth) * (1 - 1e-12));
      }),
    );
  });

  it('the usual explicit formulas stay within 3 % of it in turbulent flow', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5000, max: 1e8, noNaN: true }),
        fc.double({ min: 1e-6, max: 0.01, noNaN: true }),
        (re, rough) => {
          const f = frictionFactor({ reynolds: re, relativeRoughness: rough });
          for (const formula of [swameeJain, haaland]) expect(Math.abs(formula(re, rough) / f - 1)).toBeLessThan(0.03);
        },
      ),
    );
  });

  it.each([0, -1, Number.NaN])('there is none at Re %d', (re) => {
    expect(() => frictionFactor({ reynolds: re, relativeRoughness: 0 })).toThrow(/expected more than 0/);
  });
});
