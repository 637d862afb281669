import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type CriterionId, criteria, criterion } from '../../src/handbook/practice-criteria.ts';

/** SI values worked out by hand from what the sources print. */
const printed: readonly (readonly [CriterionId, number])[] = [
  ['drive-length-bores-least', 150],
  ['drive-length-bores-most', 1000],
  ['drive-length-falls-least', 5],
  ['drive-length-falls-most', 10],
  ['fall-least', 0.5],
  ['velocity-most', 1.524],
  ['storage-least', 259_200],
  ['readings-least', 3],
];

describe('what practice judges by', () => {
  it.each(printed)('%s is %d', (id, value) => {
    expect(criterion(id).value).toBeCloseTo(value, 9);
  });

  it('a back pressure of 10 psi is 7.03 m of water', () => {
    // 10 lbf/in² over 1000 kg/m³ and standard gravity.
    expect(criterion('delivery-head-least').value).toBeCloseTo((10 * 6894.757) / 9806.65, 2);
  });

  it('every criterion is judged by a finding or reckoned with', () => {
    const read = (folder: string): string =>
      readdirSync(folder, { recursive: true, encoding: 'utf8' })
        .filter((name) => name.endsWith('.ts'))
        .map((name) => readFileSync(`${folder}/${name}`, 'utf8'))
        .join('\n');
    const core = read('src/evaluation');
    expect(criteria().filter(({ id }) => !core.includes(`'${id}'`))).toEqual([]);
  });

  it.each(criteria().map((one) => [one.id, one] as const))('%s says what it is and where it comes from', (id, one) => {
    expect(id).toMatch(/^[a-z-]+$/);
    expect(one.value).toBeGreaterThan(0);
    expect(one.about.length).toBeGreaterThan(10);
    expect(one.source.length).toBeGreaterThan(5);
    if (one.source === 'common practice, no source') expect(one.provenance).toBe('memory');
  });

  it.each(['drive-length-bores', 'drive-length-falls', 'beats'])(
    'the lower end of %s lies below its upper end',
    (stem) => {
      const ends = criteria().filter(({ id }) => id.startsWith(`${stem}-`));
      const low = ends.find(({ id }) => /-(least|low)$/.test(id));
      const high = ends.find(({ id }) => /-(most|high)$/.test(id));
      expect(low?.value).toBeLessThan(high?.value ?? 0);
    },
  );
});
