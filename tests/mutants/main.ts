/*
 * `npm run mutants -- FOLDER...`: changes the code of each folder or file in one small place after the other and
 * tries whether a unit test notices. Prints each change that none noticed and a table of figures; what is kept
 * goes to dist/mutants. Takes from minutes to hours, a core at a time.
 */

import { existsSync, mkdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Stryker } from '@stryker-mutator/core';
import type { LogLevel, MutantResult, PartialStrykerOptions } from '@stryker-mutator/api/core';

const root = fileURLToPath(new URL('../..', import.meta.url));
const places = process.argv.slice(2);
if (places.length === 0) {
  process.stderr.write('Name what to mutate, folders or files: npm run mutants -- app/core/run\n');
  process.exit(64);
}

process.chdir(root);
// Random cases are many for one run of the tests and too many for thousands.
process.env['LANECALL_FEWER_RUNS'] = '50';
const rows: string[] = [];
for (const place of places) {
  const results = await new Stryker(optionsFor(place)).runMutationTest();
  rows.push(figuresOf(place, results));
}
process.stdout.write(`${rows.join('\n')}\n`);

/** The folder of tests that mirrors a place, or the nearest above it: `app/core/csv.ts` is held by tests/core. */
function testsBeside(place: string): string {
  const folder = join('tests', place.replace(/^app[/]/, ''));
  return existsSync(folder) ? folder : testsBeside(dirname(place));
}

function optionsFor(place: string): PartialStrykerOptions {
  const reports = join(root, 'dist', 'mutants', place.replace(/[^a-z0-9]+/g, '-'));
  mkdirSync(reports, { recursive: true });
  return {
    mutate: [/\.tsx?(:|$)/.test(place) ? place : `${place}/**/*.{ts,tsx}`],
    testRunner: 'vitest',
    plugins: ['@stryker-mutator/vitest-runner', join(root, 'tests/mutants/survivors.mjs')],
    vitest: { configFile: 'tests/mutants/vitest.config.ts', dir: testsBeside(place) },
    coverageAnalysis: 'perTest',
    concurrency: 1,
    ignorePatterns: ['/assets/sounds', '/.git', '/.ci', '/dist'],
    tempDirName: join(tmpdir(), 'lanecall-mutants'),
    cleanTempDir: 'always',
    ignorers: ['thrown'],
    reporters: ['survivors', 'progress-append-only', 'json'],
    jsonReporter: { fileName: join(reports, 'mutants.json') },
    warnings: false,
    logLevel: 'warn' as LogLevel,
  };
}

function figuresOf(place: string, results: readonly MutantResult[]): string {
  const count = (...names: string[]) => results.filter(({ status }) => names.includes(status)).length;
  const noticed = count('Killed', 'Timeout');
  const missed = count('Survived', 'NoCoverage');
  const share = ((100 * noticed) / (noticed + missed)).toFixed(1);
  return `${place}: ${noticed + missed} mutants, ${share} % noticed, ${missed} not, ${count('Ignored')} left out`;
}
