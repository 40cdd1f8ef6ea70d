/*
 * `npm run mutants -- FOLDER...`: changes the code of each folder or file in one small place after the other and
 * tries whether a unit test notices: those beside it, or those that are named, as in
 * `app/host/deck/telling/screen.ts=host/deck/telling/screen.test.ts:host/screens`. Prints each change that none noticed and a table of figures; what is kept
 * goes to dist/mutants. Takes from minutes to hours, a core at a time.
 */

import { existsSync, mkdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Stryker } from '@stryker-mutator/core';
import type { LogLevel, MutantResult, PartialStrykerOptions } from '@stryker-mutator/api/core';
import { entryOf, staleIn } from './equal.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const places = process.argv.slice(2);
if (places.length === 0) {
  process.stderr.write('Name what to mutate, folders or files: npm run mutants -- app/core/run\n');
  process.exit(64);
}

/** How long a trial may take besides the time its tests take: a busy machine is slow, which is not noticing. */
const PATIENCE = 60_000;
/** The same for those that took longer, tried once more. */
const MORE_PATIENCE = 120_000;

/**
 * What is tested elsewhere too, or by one file alone: what commands and warnings say to the coach where sentences are put
 * together, their notes by the cues, what Electron's list of security points asks for, and what is made of damaged journals where they are
 * damaged.
 */
const ELSEWHERE: Readonly<Record<string, readonly string[]>> = {
  'app/host/recovery': ['host/recovery', 'host/journal'],
  'app/host/records': ['host/records', 'cli/record'],
  'app/host/journal': ['host/journal', 'host/recovery'],
  'app/desktop/messages': ['desktop/messages', 'desktop/security.test.ts'],
  'app/desktop/pages': ['desktop/pages', 'desktop/security.test.ts'],
  'app/core/record': ['core/record', 'cli/record/record.test.ts'],
  'app/core/words': ['core/words', 'core/screen/screen-name.test.ts'],
  'app/core/pace': ['core/pace', 'outside/lane-capacity.test.ts'],
  'app/core/csv.ts': ['core/csv.test.ts'],
  'app/core/day.ts': ['core/day.test.ts'],
  'app/core/ratio.ts': ['core/ratio.test.ts'],
  'app/core/run/feedback': ['core/run', 'core/record/tables/record-csv.test.ts', 'renderer/ui/coach'],
  'app/core/plan/warnings': [
    'core/plan/warnings',
    'core/plan/warning-words.test.ts',
    'renderer/desk/timetable/warning-groups.test.ts',
  ],
  'app/core/run/commands': ['core/run', 'core/sound', 'renderer/ui/coach', 'renderer/ui/leaving.test.ts'],
};

process.chdir(root);
// Random cases are many for one run of the tests and too many for thousands.
process.env['LANECALL_FEWER_RUNS'] = '50';
const rows: string[] = [];
for (const given of places) {
  const [place = '', tests] = given.split('=');
  const results = await tried(place, tests?.split(':') ?? testsBeside(place));
  for (const { file, line, was, is } of staleIn(results)) {
    process.stdout.write(`equal.json: no such change any more: ${file} ${line} (${was} → ${is})\n`);
  }
  rows.push(figuresOf(place, results));
}
process.stdout.write(`${rows.join('\n')}\n`);

/** Every change of a place, tried; what ran out of time is tried once more with more of it. */
async function tried(place: string, tests: readonly string[]): Promise<readonly MutantResult[]> {
  const mutated = /\.tsx?(:|$)/.test(place) ? place : `${place}/**/*.{ts,tsx}`;
  const first = await new Stryker(optionsFor(place, tests, [mutated], PATIENCE)).runMutationTest();
  const late = first.filter(isLate);
  if (late.length === 0) return first;
  const lines = late.map(
    ({ fileName, location: { start, end } }) => `${relative('', fileName)}:${start.line}-${end.line}`,
  );
  const again = optionsFor(`${place} again`, tests, [...new Set(lines)], MORE_PATIENCE);
  const second = new Map((await new Stryker(again).runMutationTest()).map((result) => [nameOf(result), result]));
  return first.map((result) => (isLate(result) ? (second.get(nameOf(result)) ?? result) : result));
}

/** Out of time, and not because it goes round and round, which StrykerJS counts. */
function isLate({ status, statusReason }: MutantResult): boolean {
  return status === 'Timeout' && !statusReason?.startsWith('Hit limit');
}

/** Nothing loads any more, so that no test can begin: StrykerJS takes that for a survivor. */
function isBroken({ status, static: isStatic, testsCompleted }: MutantResult): boolean {
  return status === 'Survived' && isStatic === true && testsCompleted === 0;
}

function nameOf({ fileName, location: { start, end }, replacement }: MutantResult): string {
  return [fileName, start.line, start.column, end.line, end.column, replacement].join(' ');
}

/**
 * What ELSEWHERE says of a place, or of the nearest folder above it. Else, below tests/, the folder that mirrors it, or the
 * nearest above: `app/core/csv.ts` is held by tests/core. What lies deeper in a folder of the core is held by the tests of
 * all of that folder.
 */
function testsBeside(place: string): readonly string[] {
  const above = withThoseAbove(place.replace(/:.*/, ''));
  const named = above.find((folder) => ELSEWHERE[folder]);
  if (named) return ELSEWHERE[named]!;
  const mirrors = above.map((folder) => folder.replace(/^app[/]/, '').replace(/^(core[/][^/]+)[/].*/, '$1'));
  return [mirrors.find((mirror) => existsSync(join('tests', mirror)))!];
}

function withThoseAbove(place: string): readonly string[] {
  return place === '.' ? [] : [place, ...withThoseAbove(dirname(place))];
}

function optionsFor(
  place: string,
  tests: readonly string[],
  mutate: string[],
  patience: number,
): PartialStrykerOptions {
  process.env['LANECALL_TESTS'] = tests.join(':');
  const reports = join(root, 'dist', 'mutants', place.replace(/[^a-z0-9]+/g, '-'));
  mkdirSync(reports, { recursive: true });
  return {
    mutate,
    testRunner: 'vitest',
    plugins: ['@stryker-mutator/vitest-runner', join(root, 'tests/mutants/survivors.mjs')],
    // A file of tests that is named is tried even where it loads the code only while it runs.
    vitest: {
      configFile: 'tests/mutants/vitest.config.ts',
      dir: 'tests',
      related: !tests.some((test) => test.includes('.test.')),
    },
    coverageAnalysis: 'perTest',
    concurrency: 1,
    timeoutMS: patience,
    timeoutFactor: 5,
    ignorePatterns: ['/.git', '/.ci', '/dist'],
    tempDirName: join(tmpdir(), 'lanecall-mutants'),
    cleanTempDir: 'always',
    ignorers: ['thrown'],
    reporters: ['survivors', 'progress-append-only', 'json'],
    jsonReporter: { fileName: join(reports, 'mutants.json') },
    warnings: false,
    logLevel: 'warn' as LogLevel,
  };
}

/** Apart from the share: what is known to be the same, and what ran out of time twice. */
function figuresOf(place: string, results: readonly MutantResult[]): string {
  const those = (...names: string[]) => results.filter(({ status }) => names.includes(status));
  const late = results.filter(isLate).length;
  const broken = results.filter(isBroken).length;
  const noticed = those('Killed', 'Timeout').length + broken - late;
  const survived = those('Survived', 'NoCoverage').filter((mutant) => !isBroken(mutant));
  const equal = survived.filter((mutant) => entryOf(mutant)).length;
  const missed = survived.length - equal;
  const share = ((100 * noticed) / (noticed + missed)).toFixed(1);
  return (
    `${place}: ${noticed + missed} mutants, ${share} % noticed, ${missed} not; ` +
    `besides ${equal} equal, ${late} out of time, ${those('Ignored').length} left out`
  );
}
