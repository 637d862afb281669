import { describe, expect, it } from 'vitest';
import { CompensatedSum } from '../../src/geodesy/compensated-sum.ts';
import { traceCubic } from '../../src/geodesy/cubic-trace.ts';
import { distanceBetween } from '../../src/geodesy/geodesic.ts';
import { geodesicStretch } from '../../src/geodesy/geodesic-stretch.ts';
import { polylineLength } from '../../src/geodesy/polyline-length.ts';

/** Two steps of a double near a longitude of 180: 2 × 2.84e-14 degrees, 6.4 nm on the equator. */
const ROUNDING = 6.4e-9;

describe('points along a geodesic', () => {
  it.each([
    ['at the equator', { lon: 10, lat: 0 }, { lon: 10.05, lat: 0.03 }],
    ['in the middle latitudes', { lon: -122.4, lat: 47 }, { lon: -122.3, lat: 47.06 }],
    ['near the edge of the inhabited world', { lon: 15.6, lat: 78.2 }, { lon: 15.9, lat: 78.25 }],
    ['across the antimeridian', { lon: 179.98, lat: -17 }, { lon: -179.97, lat: -17.01 }],
    ['beside the pole', { lon: 0, lat: 89.99 }, { lon: 170, lat: 89.995 }],
  ])('%s, traced by cubics, lie within a nanometre of the exact ones', (_, from, to) => {
    const stretch = geodesicStretch(from, to);
    const count = 2001;
    const u = new Float64Array(count);
    const v = new Float64Array(count);
    const loose = { u: Number.POSITIVE_INFINITY, v: Number.POSITIVE_INFINITY };
    traceCubic(
      (share) => {
        const place = stretch.placeAt(share * stretch.length);
        return { u: place.lon, v: place.lat };
      },
      { u, v, first: 0, last: count - 1 },
      { span: stretch.cubicSpacing / stretch.length, tolerance: loose, nowhere: 0 },
    );
    let worst = 0;
    for (let i = 0; i < count; i++) {
      const exact = stretch.placeAt((i / (count - 1)) * stretch.length);
      worst = Math.max(worst, distanceBetween(exact, { lon: u[i] ?? 0, lat: v[i] ?? 0 }));
    }
    expect(worst).toBeLessThan(1e-9 + ROUNDING);
  });

  it('ends where it was drawn to', () => {
    const to = { lon: 11.002, lat: 47.001 };
    const stretch = geodesicStretch({ lon: 11, lat: 47 }, to);
    expect(stretch.length).toBeCloseTo(188.405376696, 8);
    expect(distanceBetween(stretch.placeAt(stretch.length), to)).toBeLessThan(1e-8);
  });
});

describe('a traced curve', () => {
  it('is halved until it keeps to a bend that no one cubic follows', () => {
    const count = 5001;
    const u = new Float64Array(count);
    const v = new Float64Array(count);
    let asked = 0;
    const bend = (share: number) => {
      asked++;
      return { u: Math.sin(40 * share), v: Math.abs(share - 0.3) };
    };
    const tolerance = { u: 1e-6, v: 1e-6 };
    traceCubic(bend, { u, v, first: 0, last: count - 1 }, { span: 1, tolerance, nowhere: 0 });
    expect(asked).toBeLessThan(count);
    for (let i = 0; i < count; i++) {
      const exact = bend(i / (count - 1));
      expect(Math.abs((u[i] ?? 0) - exact.u)).toBeLessThan(2e-6);
      expect(Math.abs((v[i] ?? 0) - exact.v)).toBeLessThan(2e-6);
    }
  });

  it('has its own mark where there is no such place', () => {
    const u = new Float64Array(101);
    const v = new Float64Array(101);
    const half = (share: number) => (share > 0.5 ? null : { u: share, v: 2 * share });
    traceCubic(half, { u, v, first: 0, last: 100 }, { span: 1, tolerance: { u: 1e-9, v: 1e-9 }, nowhere: -1 });
    expect(u[50]).toBeCloseTo(0.5, 12);
    expect(u[51]).toBe(-1);
    expect(v[100]).toBe(-1);
  });
});

describe('a length of many pieces', () => {
  it('loses no digit to the sum of a million tenths', () => {
    const sum = new CompensatedSum();
    let plain = 0;
    for (let i = 0; i < 1_000_000; i++) {
      sum.add(0.1);
      plain += 0.1;
    }
    expect(sum.value).toBe(100_000);
    expect(plain).not.toBe(100_000);
  });

  it('keeps what a large term would swallow', () => {
    const sum = new CompensatedSum();
    for (const v of [1, 1e100, 1, -1e100]) sum.add(v);
    // Neumaier 1974: plain summation gives 0, Kahan's too.
    expect(sum.value).toBe(2);
  });

  it('goes round a small square by the perimeter that Planimeter prints', () => {
    // GeographicLib 2.1.2: printf '47 11\n47 11.01\n47.01 11.01\n47.01 11\n' | Planimeter
    const square = [
      { lat: 47, lon: 11 },
      { lat: 47, lon: 11.01 },
      { lat: 47.01, lon: 11.01 },
      { lat: 47.01, lon: 11 },
      { lat: 47, lon: 11 },
    ];
    expect(polylineLength(square)).toBeCloseTo(3744.39683, 5);
    expect(polylineLength([{ lat: 1, lon: 2 }])).toBe(0);
  });
});
