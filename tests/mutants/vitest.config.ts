// What `npm run mutants` tries a mutant with: the unit tests beside what is mutated, the quick files first.

import { readFileSync } from 'node:fs';
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';
import { unit } from '../vitest.config.ts';

const TESTS = (process.env['LANECALL_TESTS'] ?? '').split(':');

const SLOW = /from 'fast-check'|inventTrial|performance\.now\(\)/;

/** The first test that fails ends a trial, so those of many random cases come last, and those that look at a real clock. */
class QuickFirst extends BaseSequencer {
  override sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const slow = ({ moduleId }: TestSpecification) => SLOW.test(readFileSync(moduleId, 'utf8'));
    return Promise.resolve([...files.filter((file) => !slow(file)), ...files.filter(slow)]);
  }
}

export default defineConfig({
  ...unit,
  test: {
    ...unit.test,
    // What a change keeps from happening never comes: waiting for it as long as on a busy day takes most of the time.
    expect: { poll: { timeout: 4000 } },
    // What `main.ts` names, below tests/.
    include: TESTS.map((place) => (place.includes('.test.') ? place : `${place}/**/*.test.{ts,tsx}`)),
    // Where texts are very long, a loop that no longer ends goes round for minutes before it is noticed.
    exclude: ['**/long-*.test.ts'],
    // Nothing that is mutated keeps anything from one file of tests to the next, but each has an Electron of its own.
    isolate: TESTS.some((place) => place.startsWith('desktop')),
    sequence: { sequencer: QuickFirst },
  },
});
