// Everything that is tested: types and lint, unit tests (floors, references and the command line among them), then the
// browser, each once. Its last line is the sum. A check that fails counts as one failure.
import { mkdir, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { root, runNode, tool } from './lib/run-program.mjs';
import { testOutcome } from './lib/test-outcome.mjs';

const reports = join(root, 'build', 'test-reports');
await rm(reports, { recursive: true, force: true });
await mkdir(reports, { recursive: true });

async function readReport(file) {
  try {
    return JSON.parse(await readFile(file, 'utf8'));
  } catch {
    return null;
  }
}

async function checks() {
  const file = join(reports, 'check.json');
  const { code } = await runNode(['scripts/check.mjs', '--json', file], { show: true });
  const outcomes = await readReport(file);
  if (outcomes === null) return { passed: 0, failures: [`check: ended with code ${code} and no report`] };
  return { passed: 0, failures: outcomes.filter(({ passed }) => !passed).map(({ name }) => `check: ${name}`) };
}

async function tests() {
  const file = join(reports, 'tests.json');
  const args = ['run', '--reporter=default', '--reporter=json', `--outputFile.json=${file}`];
  const { code } = await runNode([tool('vitest/vitest.mjs'), ...args], { show: true });
  return testOutcome(await readReport(file), code);
}

const runners = [
  ['types and lint', checks],
  ['unit and browser tests', tests],
];

const results = [];
for (const [name, run] of runners) {
  console.log(`\n=== ${name} ===`);
  results.push({ name, ...(await run()) });
}

const failures = results.flatMap((result) => result.failures);
const passed = results.reduce((sum, result) => sum + result.passed, 0);
console.log('');
for (const result of results) console.log(`${result.failures.length === 0 ? 'ok  ' : 'FAIL'}  ${result.name}`);
for (const failure of failures) console.log(`      ${failure}`);
console.log(`${passed} passed, ${failures.length} failed`);
process.exitCode = failures.length === 0 ? 0 : 1;
