// Runs the browser tests: builds the site once, serves it, opens a fresh context for each case.
// `node tests/browser/run.mjs [part of a file or case name …] [--json FILE]`
import { rm, writeFile } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { root } from '../../scripts/lib/run-program.mjs';
import { launchBrowser } from './harness/launch-browser.mjs';
import { loadCases } from './harness/load-cases.mjs';
import { runCase } from './harness/run-case.mjs';
import { serveSite } from './harness/serve-site.mjs';

const { values, positionals } = parseArgs({ options: { json: { type: 'string' } }, allowPositionals: true });
const failuresFolder = join(root, 'tests', 'browser', 'failures');

async function runAll() {
  const cases = await loadCases(positionals);
  const site = await serveSite();
  try {
    const { browser, from } = await launchBrowser();
    console.log(`browser: ${from}`);
    try {
      return await runSideBySide(cases, (each) => runAndTell({ browser, origin: site.origin, failuresFolder }, each));
    } finally {
      await browser.close();
    }
  } finally {
    await site.close();
  }
}

/** Cases are apart from each other, each in a context of its own; more than a few at once only wait for the processor. */
const mostAtOnce = Math.min(3, availableParallelism());

async function runSideBySide(cases, run) {
  const results = [];
  const left = cases.entries();
  const runner = async () => {
    for (const [at, each] of left) results[at] = await run(each);
  };
  await Promise.all(Array.from({ length: mostAtOnce }, runner));
  return results;
}

async function runAndTell(setting, each) {
  const name = `${each.file}: ${each.name}`;
  const result = await runCase(setting, { ...each, name });
  console.log(`${result.passed ? 'ok  ' : 'FAIL'}  ${name}`);
  if (!result.passed) console.log(`${result.reason}${result.picture ? `\npicture: ${result.picture}` : ''}`);
  return result;
}

async function results() {
  try {
    return await runAll();
  } catch (error) {
    console.log(`FAIL  the browser tests could not be run\n${error.stack}`);
    return [{ name: 'the browser tests could be run', passed: false, reason: String(error.message) }];
  }
}

await rm(failuresFolder, { recursive: true, force: true });
const all = await results();
const failures = all.filter(({ passed }) => !passed);
const passed = all.length - failures.length;
if (values.json !== undefined) await writeFile(values.json, JSON.stringify({ passed, failures }, null, 2));
console.log(`browser tests: ${passed} passed, ${failures.length} failed`);
process.exit(failures.length === 0 ? 0 : 1);
