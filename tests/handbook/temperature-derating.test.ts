import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Derating, deratingFactor, deratingSource } from '../../src/handbook/temperature-derating.ts';

const fahrenheit = (degrees: number): number => (degrees - 32) / 1.8;

/** PVC: PPFA User Bulletin 3-96. Inch PE: AWWA C901, from memory. Metric PE: EN 12201-1 annex A, from memory. */
const printed: readonly (readonly [Derating, number, number])[] = [
  ['pvc', fahrenheit(73), 1],
  ['pvc', fahrenheit(80), 0.88],
  ['pvc', fahrenheit(90), 0.75],
  ['pvc', fahrenheit(100), 0.62],
  ['pvc', fahrenheit(140), 0.22],
  ['pe-inch', fahrenheit(80), 1],
  ['pe-inch', fahrenheit(90), 0.9],
  ['pe-inch', fahrenheit(100), 0.8],
  ['pe', 20, 1],
  ['pe', 30, 0.87],
  ['pe', 40, 0.74],
];
const kinds = fc.constantFrom<Derating>('pvc', 'pe', 'pe-inch', 'steel', 'copper');

describe('what a warm pipe keeps of its rating', () => {
  it.each(printed)('%s at %d °C keeps %d', (derating, temperature, factor) => {
    expect(deratingFactor(derating, temperature)).toBeCloseTo(factor, 9);
  });

  it('lies straight between two printed steps', () => {
    expect(deratingFactor('pe', 25)).toBeCloseTo(0.935, 9);
    expect(deratingFactor('pvc', fahrenheit(95))).toBeCloseTo((0.75 + 0.62) / 2, 9);
  });

  it('earns nothing from cold, and nothing is said above the last step', () => {
    for (const derating of ['pvc', 'pe', 'pe-inch'] as const) expect(deratingFactor(derating, 1)).toBe(1);
    expect(deratingFactor('pvc', 60.5)).toBeNull();
    expect(deratingFactor('pe', 40.1)).toBeNull();
    expect(deratingFactor('pe-inch', 38)).toBeNull();
    expect(deratingFactor('steel', 60)).toBe(1);
    expect(deratingFactor('copper', 37)).toBe(1);
    expect(deratingFactor('copper', 38)).toBeNull();
  });

  it('never rises as the water warms', () => {
    fc.assert(
      fc.property(
        kinds,
        fc.double({ min: 0, max: 60, noNaN: true }),
        fc.double({ min: 0, max: 60, noNaN: true }),
        (kind, a, b) => {
          const cold = deratingFactor(kind, Math.min(a, b)) ?? 0;
          const warm = deratingFactor(kind, Math.max(a, b)) ?? 0;
          expect(warm).toBeLessThanOrEqual(cold);
        },
      ),
    );
  });

  it('polyethylene of unknown make is judged by the stricter table', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 60, noNaN: true }), (temperature) => {
        const stricter = deratingFactor('pe', temperature) ?? 0;
        const inch = deratingFactor('pe-inch', temperature);
        if (inch !== null) expect(stricter).toBeLessThanOrEqual(inch);
      }),
    );
  });

  it('tables name their source, steel needs none', () => {
    expect(deratingSource('pvc')?.source).toContain('PPFA');
    expect(deratingSource('steel')).toBeNull();
  });
});
