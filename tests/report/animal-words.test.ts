import { describe, expect, it } from 'vitest';
import { herdRows } from '../../src/handbook/livestock-needs.ts';
import { animalChoices, animalLabel } from '../../src/report/words/animal-words.ts';

const labels = (units: 'metric' | 'us') => herdRows().map((row) => animalLabel(row, units));

describe('animals in words', () => {
  it('have their weights and milk in the units of the reader', () => {
    expect(labels('us').filter((label) => /\d[ -]?(?:kg|L)\b/.test(label))).toEqual([]);
    expect(labels('metric').filter((label) => /\d[ -]?(?:lb|gal)\b/.test(label))).toEqual([]);
    // 180 kg and 360 kg are 396.8 lb and 793.7 lb: 1 lb = 0.45359237 kg, NIST SP 811 (2008) appendix B.
    expect(labels('us')).toContain('beef, growing 400-790 lb');
    expect(labels('metric')).toContain('beef, 230-kg calf');
  });

  it('stand once each, with what they drink', () => {
    for (const units of ['metric', 'us'] as const) {
      const all = animalChoices(units).flatMap(({ choices }) => choices);
      const names = all.map(({ words }) => words.split(': ')[0]);
      expect(new Set(names).size).toBe(names.length);
      expect(all.every(({ words }) => /(?:gal|fl oz|L)\/day/.test(words))).toBe(true);
    }
  });

  it('are found by any of their words', () => {
    const found = animalChoices('metric', 'COW calf');
    expect(found.flatMap(({ choices }) => choices.map(({ words }) => words.toLowerCase()))).not.toEqual([]);
    for (const { choices } of found)
      for (const { words } of choices) expect(words.toLowerCase()).toMatch(/cow.*calf|calf.*cow/);
    expect(animalChoices('us', 'unicorn')).toEqual([]);
  });
});
