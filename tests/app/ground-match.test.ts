import { describe, expect, it } from 'vitest';
import { apart } from '../../src/app/state/ground-match.ts';

const box = (west: number, south: number, east: number, north: number) => [
  { lon: west, lat: south },
  { lon: east, lat: south },
  { lon: east, lat: north },
  { lon: west, lat: north },
];

describe('how far two outlines lie apart', () => {
  it('is nothing where they overlap or one holds the other', () => {
    expect(apart(box(10, 50, 11, 51), box(10.5, 50.5, 12, 52))).toBe(0);
    expect(apart(box(10, 50, 11, 51), box(10.4, 50.4, 10.6, 50.6))).toBe(0);
    expect(apart(box(10.4, 50.4, 10.6, 50.6), box(10, 50, 11, 51))).toBe(0);
  });

  it('is the way between their nearest edges', () => {
    // A degree of the meridian at the equator is 110.574 km on WGS 84 (published arc lengths, from memory).
    expect(apart(box(0, 0, 1, 1), box(0, 2, 1, 3))).toBeCloseTo(110_574, -2);
  });

  it('goes the short way across the antimeridian', () => {
    // 0.2° of the equator: 0.2 × 111.320 km.
    expect(apart(box(179.8, -0.1, 179.9, 0.1), box(-179.9, -0.1, -179.8, 0.1))).toBeCloseTo(0.2 * 111_320, -2);
  });

  it('is not known without a place', () => {
    expect(apart([], box(0, 0, 1, 1))).toBeNull();
  });
});
