import { expect, test } from 'vitest';
import { root } from '../../scripts/lib/run-program.mjs';
import { testOutcome } from '../../scripts/lib/test-outcome.mjs';

const passing = { fullName: 'water runs downhill', status: 'passed' };

function report(...files: object[]) {
  return { testResults: files };
}

test('tests that passed are counted over all files', () => {
  const file = { name: `${root}a.test.ts`, status: 'passed', assertionResults: [passing, passing] };
  expect(testOutcome(report(file, file), 0)).toEqual({ passed: 4, failures: [] });
});

test('a failed test and a skipped one both count as failures, by name', () => {
  const results = [passing, { ...passing, status: 'failed' }, { ...passing, status: 'skipped' }];
  expect(testOutcome(report({ name: `${root}a.test.ts`, status: 'failed', assertionResults: results }), 1)).toEqual({
    passed: 1,
    failures: ['a.test.ts: water runs downhill (failed)', 'a.test.ts: water runs downhill (skipped)'],
  });
});

test('a file that could not be run counts as one failure', () => {
  const broken = { name: `${root}b.test.ts`, status: 'failed', message: 'no such module\nat …', assertionResults: [] };
  expect(testOutcome(report(broken), 1)).toEqual({
    passed: 0,
    failures: ['b.test.ts: could not be run: no such module'],
  });
});

test('no report, no test file, and an end that no test explains are failures', () => {
  const fine = { name: `${root}a.test.ts`, status: 'passed', assertionResults: [passing] };
  expect(testOutcome(null, 1).failures).toHaveLength(1);
  expect(testOutcome(report(), 0).failures).toHaveLength(1);
  expect(testOutcome(report(fine), 1)).toEqual({ passed: 1, failures: ['tests: vitest ended with code 1'] });
});
