import { lineString, point, pointToLineDistance } from '@turf/turf';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Position } from '../../../src/geodesy/position.ts';
import { simplifyTrack } from '../../../src/plan/exchange/import-into.ts';

/** Steps of a walk of some metres, at any latitude that people farm at. */
const walk = fc
  .tuple(
    fc.double({ min: -60, max: 60, noNaN: true }),
    fc.array(fc.tuple(fc.integer({ min: -90, max: 90 }), fc.integer({ min: -90, max: 90 })), {
      minLength: 2,
      maxLength: 60,
    }),
  )
  .map(([lat, steps]) => {
    const track: Position[] = [{ lon: -40, lat }];
    for (const [east, north] of steps) {
      const here = track.at(-1) ?? { lon: 0, lat: 0 };
      track.push({ lon: here.lon + east / 1e6, lat: here.lat + north / 1e6 });
    }
    return track;
  });

describe('a simplified track', () => {
  it('keeps its ends and only places of the file, in their order', () => {
    fc.assert(
      fc.property(walk, fc.double({ min: 0, max: 30, noNaN: true }), (track, tolerance) => {
        const kept = simplifyTrack(track, tolerance);
        expect(kept[0]).toBe(track[0]);
        expect(kept.at(-1)).toBe(track.at(-1));
        let at = 0;
        for (const vertex of kept) {
          at = track.indexOf(vertex, at) + 1;
          expect(at).toBeGreaterThan(0);
        }
      }),
    );
  });

  it('passes every place of the file within the tolerance', () => {
    fc.assert(
      fc.property(walk, fc.double({ min: 0.5, max: 30, noNaN: true }), (track, tolerance) => {
        const line = lineString(simplifyTrack(track, tolerance).map(({ lon, lat }) => [lon, lat]));
        for (const { lon, lat } of track) {
          const away = pointToLineDistance(point([lon, lat]), line, { units: 'meters', method: 'geodesic' });
          // turf measures on a sphere: up to 0.6 % off.
          expect(away).toBeLessThanOrEqual(tolerance * 1.006 + 1e-6);
        }
      }),
      { numRuns: 50 },
    );
  });

  it('a straight line keeps its two ends, and a tolerance of nought keeps all', () => {
    const straight = Array.from({ length: 900 }, (_, k) => ({ lon: -40, lat: 38 + k / 1e5 }));
    expect(simplifyTrack(straight, 1)).toHaveLength(2);
    expect(simplifyTrack(straight, 0)).toBe(straight);
  });

  it('the worst track of a hundred thousand places is simplified in stretches', () => {
    // Each place farther out than the one before, so that every split leaves one side empty.
    const spiral = Array.from({ length: 100_000 }, (_, k) => ({
      lon: (k % 2 === 0 ? 1 : -1) * k * 1e-6,
      lat: k * 1e-7,
    }));
    const kept = simplifyTrack(spiral, 0.01);
    expect(kept.length).toBeGreaterThan(99_000);
  });
});
