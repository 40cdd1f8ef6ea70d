/*
 * The stages of `npm test`, in order; it stops where one fails. What only reads the sources runs beside the unit tests,
 * which wait now and then, so that two cores are never idle. The last line printed is the count of all tests that ran,
 * once any did.
 */

import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { performance } from 'node:perf_hooks';
import { fileURLToPath } from 'node:url';
import { npm } from '../../app/cli/launcher/child-process.mjs';
import { installBrowser } from './system/browser.ts';
import { countsOf, summaryLine, type Counts } from './test-counts.ts';

interface Stage {
  readonly name: string;
  /** Prints what it has to say, or hands it to `print` when it is over. */
  readonly run: (print?: Print) => Promise<boolean>;
}

type Print = (text: string) => void;

const root = fileURLToPath(new URL('../..', import.meta.url));
const reports = `${root}dist/.test`;
const counts: Counts[] = [];

/** Steps one after the other; the rows of a step side by side, each from left to right. */
const STEPS: readonly (readonly (readonly Stage[])[])[] = [
  [[{ name: 'browser', run: browserIsThere }]],
  [
    [script('types'), { name: 'unit tests', run: (print) => tests('unit', print) }],
    [script('rules', 'dependency rules'), script('format'), script('lint')],
  ],
  [[script('build')]],
  [[{ name: 'end-to-end tests', run: (print) => tests('e2e', print) }]],
];

process.exitCode = await runSteps();

async function runSteps(): Promise<number> {
  rmSync(reports, { recursive: true, force: true });
  mkdirSync(reports, { recursive: true });
  let failed: readonly string[] = [];
  for (const rows of STEPS) {
    const ends = await Promise.all(rows.map((row) => runRow(row, rows.length > 1)));
    failed = ends.filter((end) => end !== null);
    if (failed.length > 0) break;
  }
  if (failed.length > 0) process.stdout.write(`Stopped at: ${failed.join(', ')}\n`);
  if (counts.length > 0) process.stdout.write(`${summaryLine(counts)}\n`);
  return failed.length === 0 ? 0 : 1;
}

/** The name of the stage that failed, or null. `beside`: others print at the same time. */
async function runRow(row: readonly Stage[], beside: boolean): Promise<string | null> {
  for (const { name, run } of row) {
    const begun = performance.now();
    let said = '';
    const passed = await run(beside ? (text) => (said += text) : undefined);
    const seconds = ((performance.now() - begun) / 1000).toFixed(1);
    process.stdout.write(`${said}${passed ? 'ok    ' : 'FAILED'} ${name} (${seconds} s)\n`);
    if (!passed) return name;
  }
  return null;
}

function script(npmName: string, name = npmName): Stage {
  return { name, run: (print) => npmScript(npmName, [], print) };
}

function browserIsThere(): Promise<boolean> {
  try {
    process.stdout.write(`Browser: ${installBrowser()}\n`);
    return Promise.resolve(true);
  } catch (error) {
    process.stdout.write(`${error instanceof Error ? error.message : String(error)}\n`);
    return Promise.resolve(false);
  }
}

/** Runs the tests of one script of package.json and keeps their counts. */
async function tests(name: 'unit' | 'e2e', print?: Print): Promise<boolean> {
  const file = `dist/.test/${name}.json`;
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${file}`];
  const passed = await npmScript(name, reporters, print);
  if (!existsSync(root + file)) return false;
  counts.push(countsOf(readFileSync(root + file, 'utf8')));
  return passed;
}

function npmScript(name: string, args: readonly string[] = [], print?: Print): Promise<boolean> {
  const command = ['run', '-s', name, ...(args.length > 0 ? ['--', ...args] : [])];
  return new Promise((resolve) => {
    const output = print ? 'pipe' : 'inherit';
    const child = npm(command, { cwd: root, stdio: ['inherit', output, output] });
    for (const stream of [child.stdout, child.stderr]) stream?.on('data', (bytes: Buffer) => print?.(String(bytes)));
    child.on('error', () => resolve(false));
    child.on('close', (status) => resolve(status === 0));
  });
}
