import { describe, expect, test } from 'vitest';
import { averagingError, roughSlope } from '../../src/terrain/accuracy/averaging.ts';
import { averagingErrorAt } from '../../src/terrain/ground/roughness.ts';
import { smoothingAt } from '../../src/terrain/ground/smoothing.ts';

// Closed forms of block means and straight lines between them; the calibration itself is measured by the bench of height bands.

const SIDE = 40;
const MIDDLE = 20;

function block(height: (x: number, y: number) => number) {
  const heights = Float64Array.from({ length: SIDE * SIDE }, (_, i) => height(i % SIDE, Math.floor(i / SIDE)));
  return { column: 0, row: 0, columns: SIDE, rows: SIDE, heights, known: new Uint8Array(SIDE * SIDE).fill(1) };
}
const place = { column: MIDDLE + 0.5, row: MIDDLE + 0.5 };

describe('what averaging over cells does to heights', () => {
  test('shows in full on a smooth surface: a bowl of block means hides nothing', () => {
    const bowl = block((x, y) => 0.1 * (x - MIDDLE) ** 2 + 0.1 * (y - MIDDLE) ** 2);
    // Second differences of 0.2 along both axes; mean square over a cell (1/64 + 1/120 − 1/144) · 2 · 0.04 + 2/64 · 0.04.
    const shown = Math.sqrt((1 / 64 + 1 / 120 - 1 / 144) * 2 * 0.04 + (2 / 64) * 0.04);
    expect(averagingErrorAt(bowl, place)).toBeCloseTo(1.02 * shown, 12);
    expect(smoothingAt(bowl, place)).toBeCloseTo(0.4 / 24, 12);
  });

  test('is several times what shows where second differences hardly grow with distance', () => {
    let state = 1;
    const random = () => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return state / 2 ** 32;
    };
    const noise = block(() => random());
    const rough = averagingErrorAt(noise, place) ?? 0;
    const smooth = averagingErrorAt(
      block((x, y) => 0.1 * (x - MIDDLE) ** 2 + 0.1 * (y - MIDDLE) ** 2),
      place,
    );
    // White noise: both differences have a variance of 6 σ², the growth is 1 and the largest factor holds.
    const shown = Math.sqrt((1 / 64 + 1 / 120 - 1 / 144) * 12 + (2 / 64) * 4) / Math.sqrt(12);
    expect(rough / shown).toBeGreaterThan(1.7);
    expect(rough / shown).toBeLessThan(2.9);
    expect(smooth).toBeGreaterThan(0);
  });

  test('is nothing on a plane, and not known at a corner or among voids', () => {
    const plane = block((x, y) => 3 * x - 2 * y);
    expect(averagingErrorAt(plane, place)).toBe(0);
    expect(averagingErrorAt(plane, { column: 0.5, row: 0.5 })).not.toBeNull();
    plane.known.fill(0);
    expect(averagingErrorAt(plane, place)).toBeNull();
  });
});

describe('the likely amount', () => {
  const point = { smoothing: 0.4, averaging: 1 };

  test('lifts the lowest ground and lowers the highest, the more the larger the cells', () => {
    const [low10, low30] = [10, 30].map((cell) => averagingError(point, cell, 'low').likely);
    const [high10, high30] = [10, 30].map((cell) => averagingError({ ...point, smoothing: -0.4 }, cell, 'high').likely);
    expect(low10).toBeGreaterThan(1);
    expect(low30).toBeGreaterThan(low10 ?? 0);
    expect(high10).toBeLessThan(-0.8);
    expect(high30).toBeLessThan(high10 ?? 0);
  });

  test('scales with the ground: twice as high, twice as much', () => {
    for (const landform of [null, 'low', 'high'] as const) {
      const once = averagingError(point, 12, landform);
      const twice = averagingError({ smoothing: 0.8, averaging: 2 }, 12, landform);
      expect(twice.likely).toBeCloseTo(2 * once.likely, 12);
      expect(twice.spread).toBeCloseTo(2 * once.spread, 12);
    }
  });

  test('leaves anywhere the variance that does not show', () => {
    expect(averagingError(point, 10).spread).toBeCloseTo(Math.sqrt(1 - (0.85 * 0.4) ** 2), 12);
  });

  test('a slope between rough cells is steeper than the grid shows, and a smooth one is not', () => {
    expect(roughSlope({ slope: 0.2, smoothing: 0, averaging: 1 }, 10)).toBeCloseTo(Math.hypot(0.2, 0.19), 12);
    expect(roughSlope({ slope: 0.2, smoothing: 0, averaging: 0 }, 10)).toBe(0.2);
  });
});
