import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('../..', import.meta.url).pathname,
    include: ['tests/journey/**/*.test.ts'],
    globalSetup: ['tests/skipped-programs.ts'],
    // A journey takes as long as playing does.
    testTimeout: 120_000,
    hookTimeout: 30_000,
    maxWorkers: 2,
    maxConcurrency: 3,
  },
});
