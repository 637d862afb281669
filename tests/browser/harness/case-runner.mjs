import { chromium } from 'playwright-core';
import { afterAll, TestRunner, test } from 'vitest';
import { longestEnd_ms } from './case-time.mjs';
import { runCase } from './run-case.mjs';

/**
 * Makes a test of every case of a file. The file exports `cases`: an object from a sentence to a function of `{page, context,
 * origin, browser, allowOrigin}`, or to `{options, run}` with options for the browser context.
 */
export default class CaseRunner extends TestRunner {
  async importFile(path, source) {
    const module = await super.importFile(path, source);
    if (source !== 'collect') return module;
    if (typeof module.cases !== 'object') throw new Error(`${path}: found no export "cases", expected one`);
    const { origin, address } = this.injectValue('browserCases');
    const limit_ms = this.config.testTimeout;
    const browser = connectOnce(address);
    for (const [name, entry] of Object.entries(module.cases)) {
      const { run, options, ...strange } = typeof entry === 'function' ? { run: entry, options: {} } : entry;
      const [found] = Object.keys(strange);
      if (found !== undefined) throw new Error(`case "${name}": found ${found}, expected run and options`);
      test(name, { timeout: limit_ms + longestEnd_ms }, async () =>
        runCase({ browser: await browser.connected(), origin, limit_ms }, { name, run, options }),
      );
    }
    afterAll(browser.close);
    return module;
  }
}

/** A connection to the browser of all cases, made when the first case of a file asks for it. */
function connectOnce(address) {
  let connecting;
  const connected = () => {
    connecting ??= chromium.connect(address, { timeout: 0 });
    return connecting;
  };
  return { connected, close: async () => (await connecting)?.close() };
}
