import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    exclude: ['tests/browser/**'],
    testTimeout: 30_000,
    pool: 'threads',
    allowOnly: false,
  },
});
