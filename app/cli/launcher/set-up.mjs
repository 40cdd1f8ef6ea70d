/*
 * Gets a fresh clone ready: the right Node, the packages of the lockfile, a build no older than its
 * sources. Plain JavaScript on Node alone, because it runs before any package is there. Everything it
 * has to say goes to the `say` it is handed, so that a command's standard output stays the command's.
 */

import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { ended } from './child-process.mjs';
import { withLock } from './lock.mjs';
import { installPackages, packagesAreCurrent } from './packages.mjs';

const SOURCES = ['app', 'renderer', 'assets', 'package.json', 'package-lock.json', 'tsconfig.json'];

/**
 * Installs what is missing and builds what is stale, one process at a time for a clone.
 * @param {string} root the clone's folder
 * @param {(line: string) => void} say takes one line of progress or warning
 * @param {{ build: boolean }} want whether the built program is needed as well as the packages
 * @returns {Promise<void>} rejects with a sentence for people when a step fails
 */
export async function prepare(root, say, want) {
  if (packagesAreCurrent(root) && (!want.build || buildIsCurrent(root))) return;
  await withLock(root, say, async () => {
    if (!packagesAreCurrent(root)) await installPackages(root, say);
    if (want.build && !buildIsCurrent(root)) await build(root, say);
  });
}

/**
 * @param {string} version as in `process.versions.node`
 * @returns {string | null} a sentence when this Node is too old for Vite and the test runner, null when it will do
 */
export function nodeTooOld(version) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  if (major > 20 || (major === 20 && minor >= 19)) return null;
  return `Lanecall needs Node 20.19 or newer; this is Node ${version}.`;
}

/** @param {string} root */
export function buildIsCurrent(root) {
  const stamp = join(root, 'dist', '.stamp');
  return existsSync(stamp) && readFileSync(stamp, 'utf8') === sourceStamp(root);
}

/**
 * One hash over the names and contents of everything that goes into the build.
 * @param {string} root
 */
export function sourceStamp(root) {
  const hash = createHash('sha256');
  for (const file of SOURCES.flatMap((name) => filesAt(root, name)).sort()) {
    hash.update(`\0${file}\0`).update(readFileSync(join(root, file)));
  }
  return hash.digest('hex');
}

/**
 * @param {string} root
 * @param {(line: string) => void} say
 */
async function build(root, say) {
  say('Building: the sources are newer than the build.');
  const script = join(root, 'app', 'cli', 'build', 'build.mjs');
  const child = spawn(process.execPath, [script, sourceStamp(root)], { cwd: root, stdio: ['ignore', 2, 2] });
  const status = await ended(child);
  if (status !== 0) throw new Error('The build failed, see above.');
}

/**
 * @param {string} root
 * @param {string} name of a file or folder, which may not be there
 * @returns {string[]} paths from the root
 */
function filesAt(root, name) {
  const found = statSync(join(root, name), { throwIfNoEntry: false });
  if (found?.isDirectory() !== true) return found === undefined ? [] : [name];
  return readdirSync(join(root, name)).flatMap((inner) => filesAt(root, join(name, inner)));
}
