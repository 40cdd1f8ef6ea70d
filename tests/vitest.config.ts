// What `npm run unit` runs: every test below tests/ that needs neither a browser nor a built program. Tests of the core
// and of the host, whose modules keep nothing, share them from file to file; all others have theirs anew.

import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const SHARED = ['core', 'wire', 'host', 'model', 'outside'].map((folder) => `tests/${folder}/**/*.test.ts`);

export const unit = {
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
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
};

export default defineConfig({
  root: unit.root,
  test: {
    projects: [
      { ...unit, test: { ...unit.test, name: 'core and host', include: SHARED, isolate: false } },
      {
        ...unit,
        test: {
          ...unit.test,
          name: 'around it',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: [...SHARED, 'tests/e2e/**', 'tests/bench/**', 'tests/soak/**', 'tests/gallery/**'],
        },
      },
    ],
  },
});
