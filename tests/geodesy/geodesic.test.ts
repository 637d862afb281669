import { describe, expect, it } from 'vitest';
import { courseBetween, destination, distanceBetween, offsetBetween } from '../../src/geodesy/geodesic.ts';

/** GeographicLib's own test set (GeodTest subset in its geodesictest): lat1 lon1 lat2 lon2 s12. */
const geodTest: readonly (readonly [number, number, number, number, number])[] = [
  [35.60777, -139.44815, -11.17491, -69.95921, 8935244.56048183],
  [55.52454, 106.05087, 77.03196, 197.18234, 4105086.17139244],
  [-21.97856, 142.59065, 41.84138, 98.56635, 8394328.894657671],
  [-66.99028, 112.2363, -12.70631, 285.90344, 11150344.23120802],
  [-17.42761, 173.34268, -15.84784, 5.93557, 16076603.16311807],
];

/** `echo lat1 lon1 lat2 lon2 | GeodSolve -i -p 9` (GeographicLib 2.1.2). */
const geodSolve: readonly (readonly [number, number, number, number, number])[] = [
  [47, 11, 47.001, 11.002, 188.405376696],
  [-33.0, 151.2, -33.01, 151.21, 1450.252956328],
  [36.493349428792, 0, 36.49334942879201, 0.0000008, 0.071679009],
  [0, 0, 0.5, 179.5, 19936288.578965314],
  [-30, 0, 30, 179.8, 20000239.437724669],
];

describe('the geodesic between two places', () => {
  it.each([...geodTest, ...geodSolve])(
    'from %f %f to %f %f is %f m long, to a micrometre',
    (lat1, lon1, lat2, lon2, s) => {
      const length = distanceBetween({ lat: lat1, lon: lon1 }, { lat: lat2, lon: lon2 });
      expect(Math.abs(length - s)).toBeLessThan(1e-6);
    },
  );

  it('sets out in the direction that GeodSolve prints', () => {
    const course = courseBetween({ lat: -33.0, lon: 151.2 }, { lat: -33.01, lon: 151.21 });
    expect(course.azimuth).toBeCloseTo(139.88530347792937, 11);
  });

  it('is walked to its end by the same distance and direction', () => {
    const start = { lat: 47, lon: 11 };
    const end = destination(start, courseBetween(start, { lat: 47.001, lon: 11.002 }));
    expect(end.lat).toBeCloseTo(47.001, 12);
    expect(end.lon).toBeCloseTo(11.002, 12);
  });

  it('is laid off east and north with its own length', () => {
    const { east, north } = offsetBetween({ lat: 47, lon: 11 }, { lat: 47.001, lon: 11.002 });
    expect(Math.hypot(east, north)).toBeCloseTo(188.405376696, 8);
    expect(east).toBeGreaterThan(0);
    expect(north).toBeGreaterThan(0);
  });
});
