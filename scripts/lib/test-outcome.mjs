import { relative } from 'node:path';
import { root } from './run-program.mjs';

/**
 * What vitest's JSON report says, as counts and names. A file that could not be run counts as one failure, and so does a
 * skipped test: a test that does not run says nothing.
 */
export function testOutcome(report, code) {
  if (report === null) return { passed: 0, failures: ['tests: vitest gave no report'] };
  const failures = [];
  let passed = 0;
  for (const file of report.testResults) {
    const name = relative(root, file.name);
    const failed = file.assertionResults.filter(({ status }) => status !== 'passed');
    passed += file.assertionResults.length - failed.length;
    failures.push(...failed.map(({ fullName, status }) => `${name}: ${fullName} (${status})`));
    const broken = file.status === 'failed' && failed.length === 0;
    if (broken) failures.push(`${name}: could not be run: ${firstLine(file.message)}`);
  }
  if (report.testResults.length === 0) failures.push('tests: no test file was found');
  if (code !== 0 && failures.length === 0) failures.push(`tests: vitest ended with code ${code}`);
  return { passed, failures };
}

function firstLine(text = '') {
  return text.split('\n', 1)[0];
}
