// What `npm run unit` runs: every test below tests/ that needs neither a browser nor a built program.

import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
    include: ['tests/**/*.test.{ts,tsx}'],
    exclude: ['tests/e2e/**', 'tests/bench/**', 'tests/soak/**', 'tests/gallery/**'],
    environment: 'node',
    setupFiles: 'tests/support/clean-up.ts',
    // Development machines have two cores: two workers, no more.
    maxWorkers: 2,
    testTimeout: 20_000,
    hookTimeout: 20_000,
    allowOnly: false,
    // A busy machine is slow, not wrong.
    expect: { poll: { timeout: 15_000 } },
  },
});
