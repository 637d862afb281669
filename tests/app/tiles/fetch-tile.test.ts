import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { tileAddress } from '../../../src/app/actions/tiles-actions.ts';
import { failureSentence, isTold } from '../../../src/app/client/tile-failure.ts';

describe('the address of a map tile', () => {
  test('has zoom, column and row in their places, as often as they are named', () => {
    const tile = { z: 3, x: 5, y: 1 };
    expect(tileAddress('https://tiles.invalid/{z}/{x}/{y}.png', tile)).toBe('https://tiles.invalid/3/5/1.png');
    expect(tileAddress('https://tiles.invalid/{z}?c={x}&r={y}&z={z}', tile)).toBe(
      'https://tiles.invalid/3?c=5&r=1&z=3',
    );
  });

  test('counts rows from the south for {-y}', () => {
    // Tile Map Service Specification 1.0.0, OSGeo, 2012, global-mercator: rows count from the southern edge of the world.
    expect(tileAddress('https://tiles.invalid/{z}/{x}/{-y}', { z: 3, x: 5, y: 1 })).toBe('https://tiles.invalid/3/5/6');
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 20 }),
        fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }),
        (z, share) => {
          const y = Math.floor(share * 2 ** z);
          const rowOf = (template: string) => Number(tileAddress(template, { z, x: 0, y }).split('/').at(-1));
          expect(rowOf('https://tiles.invalid/{-y}') + rowOf('https://tiles.invalid/{y}')).toBe(2 ** z - 1);
        },
      ),
    );
  });
});

describe('a tile that does not come', () => {
  test('is told unless it only lies beyond the edge of a map that is there', () => {
    const missing = { kind: 'status', status: 404 } as const;
    expect(isTold({ some: false, failure: missing })).toBe(true);
    expect(isTold({ some: true, failure: missing })).toBe(false);
    expect(isTold({ some: true, failure: { kind: 'status', status: 429 } })).toBe(true);
    expect(isTold({ some: true, failure: null })).toBe(false);
  });

  test('names the server and what it did', () => {
    expect(failureSentence({ kind: 'not-shared' }, 'tiles.invalid')).toMatch(
      /tiles\.invalid.*Access-Control-Allow-Origin/,
    );
    expect(failureSentence({ kind: 'status', status: 403 }, 'tiles.invalid')).toMatch(/tiles\.invalid.*403.*key/);
  });
});
