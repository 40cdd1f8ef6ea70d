/*
 * Behind `npm start`, `npm test`, `npm run build` and `npm run lanecall`: sets the clone up, then runs what was asked
 * for. Plain JavaScript on Node alone, because it runs before any package is there. It imports nothing that Node 16
 * lacks, so that an old Node gets as far as the sentence that refuses it.
 */

import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { standIn } from './child-process.mjs';
import { nodeTooOld, prepare } from './set-up.mjs';

const root = fileURLToPath(new URL('../../..', import.meta.url));

// Soon enough that a server's port is free when somebody starts it again.
const PARENT_CHECK_MS = 250;

/** @type {Record<string, (args: string[]) => Promise<number | void>>} */
const COMMANDS = { start, lanecall, test, build };

const status = await launch(process.argv.slice(2));
if (status !== undefined) process.exitCode = status;

/** @param {string[]} argv */
async function launch([name = '', ...args]) {
  const old = nodeTooOld(process.versions.node);
  if (old !== null) return refuse(old, 1);
  const command = COMMANDS[name];
  if (command === undefined) return refuse(`launch.mjs takes one of: ${Object.keys(COMMANDS).join(', ')}.`, 64);
  endWithParent();
  try {
    return await command(args);
  } catch (error) {
    return refuse(error instanceof Error ? error.message : String(error), 1);
  }
}

/** @param {string[]} args a session and the options of `serve` */
async function start(args) {
  const program = await builtProgram();
  return program.start(root, args, io());
}

/** @param {string[]} args */
async function lanecall(args) {
  const program = await builtProgram();
  return program.run(args, io());
}

/** @param {string[]} args */
async function test(args) {
  await prepare(root, say, { build: false });
  const stages = join(root, 'tests', 'support', 'stages.ts');
  return standIn(spawn(process.execPath, ['--import', 'tsx', stages, ...args], { cwd: root, stdio: 'inherit' }));
}

async function build() {
  await prepare(root, say, { build: true });
}

/** @returns {Promise<typeof import('../main.ts')>} */
async function builtProgram() {
  await build();
  return import(pathToFileURL(join(root, 'dist', 'lanecall.mjs')).href);
}

/**
 * Under npm a shell stands between, and a signal sent to npm alone ends the shell without reaching this
 * process. Its parent then changes, and it ends as if the signal had come.
 */
function endWithParent() {
  if (process.env['npm_lifecycle_event'] === undefined) return;
  const parent = process.ppid;
  const check = () => {
    if (process.ppid === parent) return;
    clearInterval(timer);
    process.kill(process.pid, 'SIGTERM');
  };
  const timer = setInterval(check, PARENT_CHECK_MS);
  // It does not keep the process alive when the work is done.
  timer.unref();
}

function io() {
  const { stdin, stdout, stderr } = process;
  // npm runs a script of package.json in the package's folder and keeps the user's own in INIT_CWD.
  const movedByNpm = ['start', 'lanecall'].includes(process.env['npm_lifecycle_event'] ?? '');
  return { stdin, stdout, stderr, cwd: (movedByNpm && process.env['INIT_CWD']) || process.cwd() };
}

/** @param {string} line */
function say(line) {
  process.stderr.write(`${line}\n`);
}

/**
 * @param {string} line
 * @param {number} status
 */
function refuse(line, status) {
  say(line);
  return status;
}
