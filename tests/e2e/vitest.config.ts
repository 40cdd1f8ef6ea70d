// What `npm run e2e` runs: the built program and its pages in a real browser. Every file has hosts, ports, data
// folders and a browser of its own, and waits as much as it works, so three run side by side on two cores. After them
// run the two that hold the machine to looks within two seconds and to milliseconds of sound, a core each, and last,
// alone, the one that holds it to 50 ms over many kills.

import { fileURLToPath } from 'node:url';
import { defineConfig, type TestProjectInlineConfiguration } from 'vitest/config';

const ON_TIME = ['tests/e2e/sound.test.ts', 'tests/e2e/eventful-evening.test.ts'];
const ALONE = ['tests/e2e/crash-trial.test.ts'];

const shared = {
  root: fileURLToPath(new URL('../..', import.meta.url)),
  test: {
    environment: 'node',
    setupFiles: 'tests/support/clean-up.ts',
    testTimeout: 60_000,
    hookTimeout: 60_000,
    allowOnly: false,
    // A busy machine is slow, not wrong.
    expect: { poll: { timeout: 15_000 } },
  },
} as const;

const sideBySide: TestProjectInlineConfiguration = {
  ...shared,
  test: {
    ...shared.test,
    name: 'side by side',
    include: ['tests/e2e/**/*.test.ts'],
    exclude: [...ON_TIME, ...ALONE],
    maxWorkers: 3,
    sequence: { groupOrder: 0 },
  },
};

const onTime: TestProjectInlineConfiguration = {
  ...shared,
  test: { ...shared.test, name: 'on time', include: ON_TIME, maxWorkers: 2, sequence: { groupOrder: 1 } },
};

const alone: TestProjectInlineConfiguration = {
  ...shared,
  test: { ...shared.test, name: 'alone', include: ALONE, sequence: { groupOrder: 2 } },
};

export default defineConfig({ root: shared.root, test: { projects: [sideBySide, onTime, alone] } });
