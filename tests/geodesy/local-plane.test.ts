import { expect, test } from 'vitest';
import { distanceBetween } from '../../src/geodesy/geodesic.ts';
import { localPlane } from '../../src/geodesy/local-plane.ts';

test('distances on the plane are those of GeographicLib to a part in a thousand across a farm', () => {
  for (const lat of [-45, 0, 38, 59]) {
    const origin = { lon: 179.99, lat };
    const onPlane = localPlane(origin);
    for (const [dLon, dLat] of [
      [0.05, 0.02],
      [-0.01, 0.06],
      [0.0003, -0.0002],
    ] as const) {
      const [a, b] = [origin, { lon: ((origin.lon + dLon + 180) % 360) - 180, lat: lat + dLat }];
      const [p, q] = [onPlane(a), onPlane(b)];
      const plane = Math.hypot(q.east - p.east, q.north - p.north);
      expect(Math.abs(plane / distanceBetween(a, b) - 1), `${lat} ${dLon}`).toBeLessThan(1e-3);
    }
  }
});
