import { expect, test } from 'vitest';
import { coarserSentence } from '../../src/report/words/proposal-words.ts';

const cell = { width: 3, height: 2.98 };

test('a line looked for in larger cells than the file’s own says so, with their size in the units shown', () => {
  const metric = coarserSentence({ file: 'dem.tif', coarser: 3, cell }, 'metric') ?? '';
  expect(metric.replaceAll(/\s/g, ' ')).toContain('dem.tif was read in cells of 3.0 m, 3 times its own');
  // 3 m are 9.84 ft: NIST SP 811, 2008, appendix B.8, 1 ft = 0.3048 m.
  expect((coarserSentence({ file: 'dem.tif', coarser: 3, cell }, 'us') ?? '').replaceAll(/\s/g, ' ')).toMatch(
    /9\.8 ft|10 ft/,
  );
});

test('in the file’s own cells there is nothing to say', () => {
  expect(coarserSentence({ file: 'dem.tif', coarser: 1, cell }, 'metric')).toBeNull();
});
