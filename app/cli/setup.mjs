/*
 * Gets a fresh clone ready: the right Node, the packages of the lockfile, a build no older than its
 * sources. Plain JavaScript on Node alone, because it runs before any package is there. Everything it
 * has to say goes to the `say` it is handed, so that a command's standard output stays the command's.
 */

import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { installedAgreesWithLockfile } from './installed-packages.mjs';
import { withLock } from './setup-lock.mjs';

/** @typedef {(line: string) => void} Say */
/** @typedef {(pid: number) => void} LendTo */

// The oldest Node that Vite and the test runner accept.
const OLDEST_NODE = [20, 19];

const PACKAGE_STAMP = '.lanecall-stamp';
const SOURCE_FOLDERS = ['app', 'renderer', 'assets'];
const SOURCE_FILES = ['package.json', 'package-lock.json', 'tsconfig.json'];

/**
 * Installs what is missing and builds what is stale, one process at a time for a clone.
 * @param {string} root the clone's folder
 * @param {Say} say takes one line of progress or warning
 * @param {{ build: boolean }} want whether the built program is needed as well as the packages
 * @returns {Promise<void>} rejects with a sentence for people when a step fails
 */
export async function prepare(root, say, want) {
  const ready = () => packagesAreCurrent(root) && (!want.build || buildIsCurrent(root));
  if (ready()) return;
  mkdirSync(join(root, 'dist'), { recursive: true });
  await withLock(join(root, 'dist', '.lock'), say, async (lendTo) => {
    if (!packagesAreCurrent(root)) await installPackages(root, say, lendTo);
    if (want.build && !buildIsCurrent(root)) await build(root, say, lendTo);
  });
}

/**
 * @param {string} version as in `process.versions.node`
 * @returns {string | null} a sentence when this Node is too old, null when it will do
 */
export function nodeTooOld(version) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  const [wantMajor = 0, wantMinor = 0] = OLDEST_NODE;
  if (major > wantMajor || (major === wantMajor && minor >= wantMinor)) return null;
  return `Lanecall needs Node ${OLDEST_NODE.join('.')} or newer; this is Node ${version}.`;
}

/**
 * Whether node_modules holds what the lockfile says, for this platform. A folder that somebody filled
 * with npm by hand has no stamp: then npm's own record of it is compared, and stamped if it agrees.
 * @param {string} root
 */
export function packagesAreCurrent(root) {
  const wanted = packageStamp(root);
  const stampFile = join(root, 'node_modules', PACKAGE_STAMP);
  if (readIfThere(stampFile) === wanted) return true;
  if (!installedAgreesWithLockfile(root)) return false;
  writeFileSync(stampFile, wanted);
  return true;
}

/** @param {string} root */
export function buildIsCurrent(root) {
  return readIfThere(join(root, 'dist', '.stamp')) === sourceStamp(root);
}

/**
 * One hash over the names and contents of everything that goes into the build.
 * @param {string} root
 */
export function sourceStamp(root) {
  const hash = createHash('sha256');
  const files = SOURCE_FOLDERS.flatMap((folder) => filesBelow(root, folder)).sort();
  for (const file of [...files, ...SOURCE_FILES]) {
    hash
      .update(`${file}\0`)
      .update(readFileSync(join(root, file)))
      .update('\0');
  }
  return hash.digest('hex');
}

/** @param {string} root */
function packageStamp(root) {
  const lockfile = createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .digest('hex');
  // Some packages are native: a folder carried to another kind of machine has to be installed again.
  return `${lockfile} ${process.platform}-${process.arch}\n`;
}

/**
 * Installs the lockfile's packages. What was installed before is set aside meanwhile and put back
 * when the install fails, so that a machine without a network goes on with what it has.
 * @param {string} root
 * @param {Say} say
 * @param {LendTo} lendTo
 */
async function installPackages(root, say, lendTo) {
  say('Installing the packages of the lockfile (this takes a minute the first time).');
  const modules = join(root, 'node_modules');
  const aside = join(root, 'dist', '.packages-before');
  setAside(modules, aside);
  const status = await npm(root, lendTo, ['ci', '--include=dev', '--no-audit', '--no-fund', '--loglevel=error']);
  if (status === 0) {
    writeFileSync(join(modules, PACKAGE_STAMP), packageStamp(root));
    rmSync(aside, { recursive: true, force: true });
    return;
  }
  if (!existsSync(aside)) throw new Error('The packages could not be installed: npm ci failed, see above.');
  rmSync(modules, { recursive: true, force: true });
  renameSync(aside, modules);
  say('The packages could not be brought up to the lockfile; going on with those installed before.');
}

/**
 * @param {string} modules
 * @param {string} aside
 */
function setAside(modules, aside) {
  // npm writes its record last: without one, this is what an install left that was killed half-way.
  if (!existsSync(join(modules, '.package-lock.json'))) return;
  rmSync(aside, { recursive: true, force: true });
  try {
    renameSync(modules, aside);
  } catch {
    // A folder that is a mount of its own cannot be moved; npm replaces its contents in place.
  }
}

/**
 * @param {string} root
 * @param {LendTo} lendTo
 * @param {string[]} args
 * @returns {Promise<number>} its exit status
 */
function npm(root, lendTo, args) {
  const script = process.env['npm_execpath'];
  const own = script !== undefined && basename(script) === 'npm-cli.js';
  const [command, first] = own ? [process.execPath, [script]] : ['npm', []];
  return runNoisily(command, [...first, ...args], root, lendTo, !own && process.platform === 'win32');
}

/**
 * @param {string} root
 * @param {Say} say
 * @param {LendTo} lendTo
 */
async function build(root, say, lendTo) {
  say('Building: the sources are newer than the build.');
  const status = await runNoisily(
    process.execPath,
    [join(root, 'app', 'cli', 'build.mjs'), sourceStamp(root)],
    root,
    lendTo,
  );
  if (status !== 0) throw new Error('The build failed, see above.');
}

/**
 * Runs a program with everything it prints on standard error.
 * @param {string} command
 * @param {string[]} args
 * @param {string} cwd
 * @param {LendTo} lendTo
 * @param {boolean} [shell] npm is a batch file on Windows, which only a shell starts
 * @returns {Promise<number>} its exit status; 1 where a signal ended it or it could not start
 */
function runNoisily(command, args, cwd, lendTo, shell = false) {
  return new Promise((resolve) => {
    const child = spawn(command, args, { cwd, shell, stdio: ['ignore', 2, 2] });
    // Should this process be killed outright, the lock holds until the program is done.
    if (child.pid !== undefined) lendTo(child.pid);
    // Ended at once with this process: nothing may write into the folder after the lock is given up.
    const end = () => child.kill('SIGKILL');
    process.on('exit', end);
    const ended = (/** @type {number} */ status) => {
      process.off('exit', end);
      resolve(status);
    };
    child.on('error', () => ended(1));
    child.on('exit', (status) => ended(status ?? 1));
  });
}

/**
 * @param {string} root
 * @param {string} folder
 * @returns {string[]} paths from the root, with forward slashes
 */
function filesBelow(root, folder) {
  const path = join(root, folder);
  if (!existsSync(path)) return [];
  return readdirSync(path, { withFileTypes: true }).flatMap((entry) => {
    const inner = `${folder}/${entry.name}`;
    return entry.isDirectory() ? filesBelow(root, inner) : [inner];
  });
}

/** @param {string} file */
function readIfThere(file) {
  return existsSync(file) ? readFileSync(file, 'utf8') : null;
}
