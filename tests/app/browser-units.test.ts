import { describe, expect, it } from 'vitest';
import { unitsOf } from '../../src/app/state/browser-units.ts';

describe('the first opening', () => {
  it.each([
    ['en-US', 'us'],
    ['es-US', 'us'],
    ['en-GB', 'metric'],
    ['de', 'metric'],
    ['en', 'metric'],
    ['not a language!', 'metric'],
  ] as const)('in %s is in %s units', (language, units) => {
    expect(unitsOf([language])).toBe(units);
  });

  it('goes by the first language that names a country', () => {
    expect(unitsOf(['en', 'en-US', 'en-GB'])).toBe('us');
    expect(unitsOf([])).toBe('metric');
  });
});
