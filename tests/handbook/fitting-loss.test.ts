import { describe, expect, it } from 'vitest';
import { fittingLoss, fittingRow, fittingRows } from '../../src/handbook/fitting-loss.ts';

/** Bores of Schedule 40, m. */
const bore = {
  half: 0.0158,
  threeQuarter: 0.02093,
  one: 0.02664,
  oneAndAQuarter: 0.03505,
  oneAndAHalf: 0.04089,
  two: 0.0525,
};

/** Loss coefficients by size as the open library fluids 1.3 gives them for its fully turbulent factors. */
const bySize: readonly (readonly [string, keyof typeof bore, string])[] = [
  ['elbow-90-threaded', 'half', '0.77'],
  ['elbow-90-threaded', 'threeQuarter', '0.71'],
  ['elbow-90-threaded', 'one', '0.67'],
  ['elbow-90-threaded', 'oneAndAQuarter', '0.62'],
  ['elbow-90-threaded', 'oneAndAHalf', '0.60'],
  ['elbow-90-threaded', 'two', '0.56'],
  ['valve-ball', 'half', '0.077'],
  ['valve-ball', 'two', '0.057'],
  ['valve-gate-threaded', 'one', '0.18'],
  ['tee-branch-threaded', 'half', '1.53'],
  ['tee-branch-threaded', 'two', '1.13'],
  ['valve-check-swing-threaded', 'half', '2.56'],
  ['valve-check-swing-threaded', 'threeQuarter', '2.37'],
  ['valve-check-swing-threaded', 'two', '1.88'],
  ['foot-valve-poppet', 'half', '10.8'],
  ['foot-valve-hinged', 'half', '1.9'],
];

/** EPANET 2.2 User Manual, table 3.3. */
const anySize: readonly (readonly [string, number])[] = [
  ['valve-globe', 10],
  ['valve-angle', 5],
  ['valve-check-swing', 2.5],
  ['valve-gate', 0.2],
  ['elbow-90-short', 0.9],
  ['elbow-90-medium', 0.8],
  ['elbow-90-long', 0.6],
  ['elbow-45', 0.4],
  ['bend-return', 2.2],
  ['tee-run', 0.6],
  ['tee-branch', 1.8],
  ['entrance-square', 0.5],
  ['exit', 1],
];

describe('what fittings cost', () => {
  it.each(bySize)('%s at %s in agrees to the printed digits and 1.6 %', (id, size, printed) => {
    // The library takes its factor at a finite Reynolds number by its own fit; ours is Colebrook's limit.
    const halfDigit = 0.5 * 10 ** -(printed.split('.')[1]?.length ?? 0);
    expect(Math.abs(fittingLoss(id, bore[size]) - Number(printed))).toBeLessThanOrEqual(
      0.016 * Number(printed) + halfDigit,
    );
  });

  it.each(anySize)('%s is the same in any size', (id, printed) => {
    expect(fittingLoss(id, bore.half)).toBe(printed);
    expect(fittingLoss(id, bore.two)).toBe(printed);
  });

  it('a threaded fitting costs less in a wider pipe', () => {
    for (const { id, frictionFactors } of fittingRows()) {
      if (frictionFactors > 0) expect(fittingLoss(id, bore.two)).toBeLessThan(fittingLoss(id, bore.half));
    }
  });

  it('every fitting costs something and says where that comes from', () => {
    for (const row of fittingRows()) {
      expect(fittingLoss(row.id, bore.one)).toBeGreaterThan(0);
      expect(row.label).not.toBe('');
      expect(row.source.length).toBeGreaterThan(10);
      expect(fittingRow(row.id)).toBe(row);
    }
  });

  it('an unknown fitting is a program error, since plans are checked before', () => {
    expect(fittingRow('elbow-91')).toBeNull();
    expect(() => fittingLoss('elbow-91', 0.02)).toThrow(/found fitting elbow-91/);
    expect(() => fittingLoss('elbow-90-threaded', 0)).toThrow(/found bore 0/);
  });
});
