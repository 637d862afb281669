import { describe, expect, it } from 'vitest';
import { difference } from '../../src/evaluation/statistics/apart.ts';

describe('the difference of two estimates', () => {
  it('shows only where their bands lie apart', () => {
    expect(difference({ low: 1, likely: 2, high: 3 }, { low: 3.1, likely: 4, high: 5 })).toEqual({
      by: 2,
      apart: true,
      alike: false,
    });
    expect(difference({ low: 1, likely: 2, high: 3 }, { low: 3, likely: 4, high: 5 })).toEqual({
      by: 2,
      apart: false,
      alike: false,
    });
    expect(difference({ low: 3, likely: 4, high: 5 }, { low: 1, likely: 2, high: 2.9 })).toEqual({
      by: -2,
      apart: true,
      alike: false,
    });
  });

  it('is none between two draws of one plan, whose percentiles stray by a fiftieth of the band', () => {
    const one = { low: 4.93, likely: 5.18, high: 5.44 };
    expect(difference(one, { ...one, high: 5.43 }).alike).toBe(true);
    expect(difference(one, { low: 5.1, likely: 5.18, high: 5.26 }).alike).toBe(false);
  });

  it('is none of a number without doubt only where it is the same', () => {
    const [four, more] = [4, 4.0001].map((value) => ({ low: value, likely: value, high: value }));
    if (four === undefined || more === undefined) throw new Error('found none of two numbers');
    expect(difference(four, four)).toEqual({ by: 0, apart: false, alike: true });
    expect(difference(four, more)).toMatchObject({ apart: true, alike: false });
  });
});
