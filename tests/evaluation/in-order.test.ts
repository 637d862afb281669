import fc from 'fast-check';
import { expect, test } from 'vitest';
import { valueInOrder } from '../../src/evaluation/statistics/in-order.ts';

const columns = fc.array(fc.oneof(fc.double({ noNaN: true }), fc.constantFrom(0, 1, -0, 2)), {
  minLength: 1,
  maxLength: 60,
});

test('the value at a place is the one that sorting puts there, and places may be asked for one after the other', () => {
  fc.assert(
    fc.property(columns, fc.nat(59), fc.nat(59), (values, a, b) => {
      const [first, second] = [a % values.length, b % values.length].toSorted((p, q) => p - q);
      const sorted = Float64Array.from(values).sort();
      const column = Float64Array.from(values);
      const found = [valueInOrder(column, first ?? 0), valueInOrder(column, second ?? 0, first)];
      // -0 and 0 are one number.
      expect(found.map((x) => x + 0)).toEqual([first, second].map((place) => (sorted[place ?? 0] ?? 0) + 0));
      expect(column.sort().map((x) => x + 0)).toEqual(sorted.map((x) => x + 0));
    }),
    { numRuns: 2000, seed: 9 },
  );
});
