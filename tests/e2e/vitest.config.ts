// What `npm run e2e` runs: the built program and its pages in a real browser, one file after another,
// because they share the machine's ports, screen and patience.

import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: fileURLToPath(new URL('../..', import.meta.url)),
  test: {
    include: ['tests/e2e/**/*.test.ts'],
    environment: 'node',
    fileParallelism: false,
    testTimeout: 60_000,
    hookTimeout: 60_000,
    allowOnly: false,
    // A busy machine is slow, not wrong.
    expect: { poll: { timeout: 15_000 } },
  },
});
