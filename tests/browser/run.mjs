// Runs the browser tests: builds the site once, serves it, opens a fresh context for each case.
// `node tests/browser/run.mjs [part of a file or case name …] [--json FILE]`
import { rm, writeFile } from 'node:fs/promises';
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
      const results = [];
      for (const each of cases) results.push(await runAndTell({ browser, origin: site.origin, failuresFolder }, each));
      return results;
    } finally {
      await browser.close();
    }
  } finally {
    await site.close();
  }
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
