import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.{ts,tsx}'],
    // A machine with both hands full is slow, not wrong.
    testTimeout: 60_000,
    // No test leaves anything behind in a module; reading the house anew for each file took most of the time.
    isolate: false,
    exclude: ['tests/journey/**'],
    globalSetup: ['tests/skipped-programs.ts'],
    setupFiles: ['tests/seed.ts'],
  },
});
