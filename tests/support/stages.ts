/*
 * The stages of `npm test`, in order, the quick ones first; it stops at the first that fails. The last
 * line printed is the count of all tests that ran, once any did.
 */

import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { performance } from 'node:perf_hooks';
import { fileURLToPath } from 'node:url';
import { installBrowser } from './browser.ts';
import { countsOf, summaryLine, type Counts } from './test-counts.ts';

interface Stage {
  readonly name: string;
  readonly run: () => Promise<boolean>;
}

const root = fileURLToPath(new URL('../..', import.meta.url));
const reports = `${root}dist/.test`;
const counts: Counts[] = [];

const STAGES: readonly Stage[] = [
  { name: 'browser', run: browserIsThere },
  { name: 'format', run: () => npmScript('format') },
  { name: 'lint', run: () => npmScript('lint') },
  { name: 'types', run: () => npmScript('types') },
  { name: 'dependency rules', run: () => npmScript('rules') },
  { name: 'build', run: () => npmScript('build') },
  { name: 'unit tests', run: () => tests('unit') },
  { name: 'end-to-end tests', run: () => tests('e2e') },
];

process.exitCode = await runStages();

async function runStages(): Promise<number> {
  rmSync(reports, { recursive: true, force: true });
  mkdirSync(reports, { recursive: true });
  let failedAt: string | null = null;
  for (const { name, run } of STAGES) {
    const begun = performance.now();
    const passed = await run();
    const seconds = ((performance.now() - begun) / 1000).toFixed(1);
    process.stdout.write(`${passed ? 'ok    ' : 'FAILED'} ${name} (${seconds} s)\n`);
    if (passed) continue;
    failedAt = name;
    break;
  }
  if (failedAt !== null) process.stdout.write(`Stopped at: ${failedAt}\n`);
  if (counts.length > 0) process.stdout.write(`${summaryLine(counts)}\n`);
  return failedAt === null ? 0 : 1;
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
async function tests(name: 'unit' | 'e2e'): Promise<boolean> {
  const file = `${reports}/${name}.json`;
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${file}`];
  const passed = await npmScript(name, reporters);
  if (!existsSync(file)) return false;
  counts.push(countsOf(readFileSync(file, 'utf8')));
  return passed;
}

function npmScript(name: string, args: readonly string[] = []): Promise<boolean> {
  const command = ['run', '-s', name, ...(args.length > 0 ? ['--', ...args] : [])];
  return new Promise((resolve) => {
    const child = spawn('npm', command, { cwd: root, stdio: 'inherit', shell: process.platform === 'win32' });
    child.on('error', () => resolve(false));
    child.on('exit', (status) => resolve(status === 0));
  });
}
