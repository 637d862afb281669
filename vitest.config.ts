import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { longestCase_ms, longestEnd_ms } from './tests/browser/harness/case-time.mjs';

/** A unit test that takes longer than this is stuck, ms; a machine with other work may need a good part of it. */
export const longestUnitTest_ms = 120_000;

/** `geotiff` asks for workers when it is loaded, which fails in a thread of Node; nothing here has it decode in one. */
export const withoutWorkers = {
  alias: { 'web-worker': fileURLToPath(new URL('./tests/no-worker.ts', import.meta.url)) },
  server: { deps: { inline: ['geotiff'] } },
};

export default defineConfig({
  test: {
    allowOnly: false,
    projects: [
      {
        test: {
          name: 'unit',
          include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
          exclude: ['tests/browser/**'],
          pool: 'threads',
          ...withoutWorkers,
          testTimeout: longestUnitTest_ms,
          hookTimeout: longestUnitTest_ms,
          sequence: { groupOrder: 0 },
        },
      },
      {
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.browser.{mjs,ts}'],
          globalSetup: 'tests/browser/harness/site-and-browser.mjs',
          runner: 'tests/browser/harness/case-runner.mjs',
          pool: 'threads',
          maxWorkers: 2,
          testTimeout: longestCase_ms,
          hookTimeout: longestEnd_ms,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
