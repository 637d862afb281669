import { defineConfig } from 'vitest/config';
import { longestUnitTest_ms, withoutWorkers } from './vitest.config.ts';

/** The tests that mutants of the numerical rooms run against; `scripts/mutate.mjs` names the folders. */
export default defineConfig({
  test: {
    include: (process.env.MUTATED_ROOMS ?? '').split(',').map((room) => `tests/${room}/**/*.test.ts`),
    // Files beyond 4 GiB and a thousand broken files: minutes for each mutant, and a mutant of them is seen by the others.
    exclude: ['tests/terrain/read-large.test.ts', 'tests/terrain/hostile-files.test.ts'],
    pool: 'threads',
    ...withoutWorkers,
    testTimeout: longestUnitTest_ms,
  },
});
