import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { destination } from '../../src/geodesy/geodesic.ts';
import { accuracyClasses, accuracyOfClass } from '../../src/terrain/accuracy/height-accuracy.ts';
import { heightCovariance, type PlaceOnSlope } from '../../src/terrain/accuracy/height-covariance.ts';
import { errorCovariance, varianceOfDifference } from '../../src/terrain/accuracy/height-variogram.ts';
import type { HeightAccuracy } from '../../src/terrain/grid/ground.ts';

function classOf(id: string, cell: number, quantum = 0): HeightAccuracy {
  const found = accuracyOfClass(id, { cell, quantum });
  if (!found) throw new Error(`no class ${id}`);
  return found;
}

const level = [0, 0] as const;

describe('the spread of a height difference', () => {
  /** σ of a difference over so many metres of level ground, with the class's usual averaging error at both ends. */
  const usual = (id: string, cell: number, distance: number): number => {
    const averaging = accuracyClasses.find((c) => c.id === id)?.averaging ?? 0;
    const survey = varianceOfDifference(classOf(id, cell), { distance, slopes: level });
    return Math.sqrt(survey + 2 * averaging ** 2);
  };
  /** A normal error stays within this many σ 90 times in 100. */
  const LE90 = 1.6449;

  it.each([
    ['global-30m-gentle', 30, 2, 'slopes up to 20 %'],
    ['global-30m-steep', 30, 4, 'slopes over 20 %'],
  ] as const)(
    'point to point on class %s (%i m) is the %f m LE90 of its handbook, %s',
    (id, cell, published, _slopes) => {
      // Copernicus DEM product handbook: relative vertical accuracy, 90 % linear point-to-point error.
      expect((LE90 * usual(id, cell, 150)) / published).toBeGreaterThan(0.9);
      expect((LE90 * usual(id, cell, 150)) / published).toBeLessThan(1.15);
    },
  );

  it('on the older 10 m model is the 1.64 m of its relative accuracy', () => {
    // National Elevation Dataset, overall relative vertical accuracy 1.64 m (Gesch 2007, by a later text).
    expect(usual('older-10m', 10, 150)).toBeGreaterThan(1.5);
    expect(usual('older-10m', 10, 150)).toBeLessThan(1.8);
  });

  it('of far places has twice the absolute variance that is published for one', () => {
    for (const { id, absolute } of accuracyClasses) {
      expect(Math.abs(usual(id, 1, 1e6) / Math.SQRT2 / absolute - 1)).toBeLessThan(0.06);
    }
  });

  it('grows where the ground curves, by the doubt in what averaging does to either height', () => {
    const accuracy = classOf('global-30m-steep', 30);
    const pair = { distance: 200, slopes: level };
    const curved = varianceOfDifference(accuracy, { ...pair, smoothing: [0.5, -1] });
    const doubt = accuracyClasses.find((c) => c.id === 'global-30m-steep')?.smoothingDoubt ?? 0;
    expect(curved - varianceOfDifference(accuracy, pair)).toBeCloseTo(doubt ** 2 * 1.25, 9);
  });

  it('grows with distance and with slope', () => {
    const steps = fc.tuple(
      fc.double({ min: 0, max: 5000, noNaN: true }),
      fc.double({ min: 0, max: 5000, noNaN: true }),
    );
    const slopes = fc.double({ min: 0, max: 2, noNaN: true });
    fc.assert(
      fc.property(steps, slopes, slopes, ([d, more], p, q) => {
        const accuracy = classOf('seamless-10m', 10);
        const near = varianceOfDifference(accuracy, { distance: d, slopes: [p, q] });
        expect(varianceOfDifference(accuracy, { distance: d + more, slopes: [p, q] })).toBeGreaterThanOrEqual(
          near - 1e-12,
        );
        expect(varianceOfDifference(accuracy, { distance: d, slopes: [p + 0.1, q] })).toBeGreaterThan(near);
      }),
    );
  });

  it('holds the rounding of whole metres: 0.29 m a height, a twelfth of a square metre', () => {
    // Variance of a uniform error of width q is q²/12: closed form.
    const fine = classOf('radar-30m', 30);
    const whole = classOf('radar-30m', 30, 1);
    expect(errorCovariance(whole, 0) - errorCovariance(fine, 0)).toBeCloseTo(1 / 12, 12);
  });
});

describe('the covariance of several heights', () => {
  const start = { lon: 8.3, lat: 46.9 };
  const placeAt = (east: number, north: number, slope: number): PlaceOnSlope => ({
    position: destination(start, {
      distance: Math.hypot(east, north),
      azimuth: (Math.atan2(east, north) * 180) / Math.PI,
    }),
    slope,
  });

  it('gives every difference the variance of the pair', () => {
    const accuracy = classOf('seamless-10m', 10);
    const places = [
      { ...placeAt(0, 0, 0.1), smoothing: 0.3 },
      { ...placeAt(40, 30, 0.4), smoothing: -0.2 },
    ];
    const k = heightCovariance(accuracy, places);
    const difference = (k[0] ?? 0) + (k[3] ?? 0) - (k[1] ?? 0) - (k[2] ?? 0);
    expect(difference).toBeCloseTo(
      varianceOfDifference(accuracy, { distance: 50, slopes: [0.1, 0.4], smoothing: [0.3, -0.2] }),
      6,
    );
  });

  it('is symmetric and positive semi-definite wherever the places lie', () => {
    const metres = fc.double({ min: -200, max: 200, noNaN: true });
    const place = fc.tuple(metres, metres, fc.double({ min: 0, max: 1.5, noNaN: true }));
    fc.assert(
      fc.property(fc.array(place, { minLength: 1, maxLength: 8 }), fc.constantFrom(1, 10, 30), (spots, cell) => {
        const places = spots.map(([e, n, s]) => placeAt(e, n, s));
        const matrix = heightCovariance(classOf('seamless-10m', cell), places);
        expect(leastPivot(matrix, places.length)).toBeGreaterThan(-1e-9);
      }),
      { numRuns: 200 },
    );
  });

  it('is positive on a chequerboard, on which a nugget that fades along a straight line is not', () => {
    const side = 6;
    const cell = 30;
    const bare = { ...classOf('radar-30m', cell), near: 0, far: 0, placement: 0 };
    const places: PlaceOnSlope[] = [];
    for (let r = 0; r < side; r++)
      for (let c = 0; c < side; c++) places.push(placeAt(c * cell * 0.9, r * cell * 0.9, 0));
    const sign = (i: number): number => (((i % side) + Math.floor(i / side)) % 2 === 0 ? 1 : -1);
    const alternating = (covariance: (i: number, j: number) => number): number => {
      let sum = 0;
      for (let i = 0; i < side ** 2; i++)
        for (let j = 0; j < side ** 2; j++) sum += sign(i) * sign(j) * covariance(i, j);
      return sum;
    };
    const matrix = heightCovariance(bare, places);
    expect(alternating((i, j) => matrix[i * side ** 2 + j] ?? 0)).toBeGreaterThan(0);
    expect(leastPivot(matrix, side ** 2)).toBeGreaterThan(-1e-9);
  });

  it('has nothing in common between heights of two classes: they come from two surveys', () => {
    const accuracy = classOf('lidar-1m-scrub', 1);
    const other = { ...placeAt(5, 0, 0), accuracy: classOf('global-30m-steep', 30) };
    const k = heightCovariance(accuracy, [placeAt(0, 0, 0), other]);
    expect(k[1]).toBe(0);
    expect(k[3]).toBeCloseTo(errorCovariance(classOf('global-30m-steep', 30), 0), 9);
  });

  it('takes two entries at one place for the same place', () => {
    const accuracy = classOf('older-10m', 10);
    const one = placeAt(10, 10, 0.5);
    const k = heightCovariance(accuracy, [one, { ...one, position: { ...one.position } }]);
    expect(k[1]).toBe(k[0]);
    expect(k[3]).toBe(k[0]);
  });
});

/** Least pivot of a Cholesky factorisation, with rows that are nought left out: negative when the matrix is not positive. */
function leastPivot(matrix: Float64Array, n: number): number {
  const a = Float64Array.from(matrix);
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < n; k++) {
    const pivot = a[k * n + k] ?? 0;
    least = Math.min(least, pivot);
    if (pivot < 1e-9) continue;
    for (let i = k + 1; i < n; i++) {
      const factor = (a[i * n + k] ?? 0) / pivot;
      for (let j = k; j < n; j++) a[i * n + j] = (a[i * n + j] ?? 0) - factor * (a[k * n + j] ?? 0);
    }
  }
  return least;
}
