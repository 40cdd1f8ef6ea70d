// What `npm run unit` runs: every test below tests/ that needs neither a browser nor a built program. Modules keep
// nothing from one test to the next, so files share them, which saves loading them each time. A file that puts
// another module in a module's place has its modules to itself.

import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const ELSEWHERE = ['tests/e2e/**', 'tests/bench/**', 'tests/soak/**', 'tests/gallery/**'];

export const unit = {
  root: ROOT,
  test: {
    environment: 'node',
    setupFiles: 'tests/support/clean-up.ts',
    // For two cores, beside what only reads the sources.
    maxWorkers: 2,
    testTimeout: 20_000,
    hookTimeout: 20_000,
    allowOnly: false,
    // A busy machine is slow, not wrong.
    expect: { poll: { timeout: 15_000 } },
  },
};

const replacing = readdirSync(`${ROOT}tests`, { recursive: true, encoding: 'utf8' })
  .filter((file) => /\.test\.tsx?$/.test(file))
  .map((file) => `tests/${file.replaceAll('\\', '/')}`)
  .filter((file) => /^vi\.mock\(/m.test(readFileSync(`${ROOT}${file}`, 'utf8')));

export default defineConfig({
  root: ROOT,
  test: {
    projects: [
      {
        ...unit,
        test: {
          ...unit.test,
          name: 'shared modules',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: [...replacing, ...ELSEWHERE],
          isolate: false,
        },
      },
      { ...unit, test: { ...unit.test, name: 'own modules', include: replacing, exclude: ELSEWHERE } },
    ],
  },
});
