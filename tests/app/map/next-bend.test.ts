import fc from 'fast-check';
import { expect, test } from 'vitest';
import { nextBend } from '../../../src/app/map/map-keys.ts';

test('a straight line has no bend to select', () => {
  expect([nextBend(2, null, 1), nextBend(2, null, -1)]).toEqual([null, null]);
});

test('the walk enters a line at its first bend, or backwards at its last', () => {
  expect([nextBend(5, null, 1), nextBend(5, null, -1)]).toEqual([1, 3]);
});

test('a walk along a line meets every bend once and comes round to where it began', () => {
  fc.assert(
    fc.property(fc.integer({ min: 3, max: 40 }), fc.constantFrom<1 | -1>(1, -1), (vertices, step) => {
      const met: (number | null)[] = [];
      let at = nextBend(vertices, null, step);
      for (let turn = 0; turn < vertices - 2; turn += 1) {
        met.push(at);
        at = nextBend(vertices, at, step);
      }
      expect(at).toBe(met[0]);
      expect([...met].sort((one, other) => Number(one) - Number(other))).toEqual(
        Array.from({ length: vertices - 2 }, (_, index) => index + 1),
      );
    }),
  );
});
