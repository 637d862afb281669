import { describe, expect, it } from 'vitest';
import { difference } from '../../src/evaluation/apart.ts';

describe('the difference of two estimates', () => {
  it('shows only where their bands lie apart', () => {
    expect(difference({ low: 1, likely: 2, high: 3 }, { low: 3.1, likely: 4, high: 5 })).toEqual({
      by: 2,
      apart: true,
    });
    expect(difference({ low: 1, likely: 2, high: 3 }, { low: 3, likely: 4, high: 5 })).toEqual({ by: 2, apart: false });
    expect(difference({ low: 3, likely: 4, high: 5 }, { low: 1, likely: 2, high: 2.9 })).toEqual({
      by: -2,
      apart: true,
    });
  });
});
