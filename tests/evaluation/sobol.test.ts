import { expect, test } from 'vitest';
import { evenCoordinate, SOBOL_COORDINATES, seededBits } from '../../src/evaluation/statistics/sobol.ts';

const COUNT = 1024;

test('every coordinate puts one point into each of 1024 equal strata', () => {
  const bits = seededBits(7);
  for (let c = 0; c < SOBOL_COORDINATES + 5; c++) {
    const strata = new Set(Array.from(evenCoordinate(c, COUNT, bits), (x) => Math.floor(x * COUNT)));
    expect(strata.size, `coordinate ${c}`).toBe(COUNT);
  }
});

test('the first coordinates, which carry most, fill the plane more evenly than chance', () => {
  // Each cell of a 16 by 16 board holds 4 of 1024 points for a perfect net and scatters by ±2 for chance.
  for (let c = 0; c + 1 < 8; c++) {
    const bits = seededBits(3);
    const [x, y] = [evenCoordinate(c, COUNT, bits), evenCoordinate(c + 1, COUNT, bits)];
    const board = new Float64Array(256);
    x.forEach((v, i) => {
      const cell = Math.floor(v * 16) * 16 + Math.floor((y[i] ?? 0) * 16);
      board[cell] = (board[cell] ?? 0) + 1;
    });
    const scatter = Math.sqrt(board.reduce((s, n) => s + (n - 4) ** 2, 0) / 256);
    expect(scatter, `coordinates ${c} and ${c + 1}`).toBeLessThan(1.8);
  }
});

test('the first points of the first two coordinates without a shift are those printed for Sobol’s sequence', () => {
  // Halves, quarters, three quarters: I. M. Sobol, 1967, in Gray code order.
  const unshifted = () => 0;
  const round = (v: Float64Array) => Array.from(v, (x) => Math.round(x * 8) / 8);
  expect(round(evenCoordinate(0, 8, unshifted))).toEqual([0, 0.5, 0.75, 0.25, 0.375, 0.875, 0.625, 0.125]);
  expect(round(evenCoordinate(1, 8, unshifted))).toEqual([0, 0.5, 0.25, 0.75, 0.375, 0.875, 0.125, 0.625]);
});

test('a seed gives the same points again and another seed others', () => {
  const points = (seed: number) => Array.from(evenCoordinate(4, 64, seededBits(seed)));
  expect(points(1)).toEqual(points(1));
  expect(points(1)).not.toEqual(points(2));
});
