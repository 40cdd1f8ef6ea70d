/*
 * The packages of the lockfile: whether node_modules holds them, by the record that npm keeps there, and
 * their installation by npm. A new set is installed beside the old one, which stays where that fails.
 */

import { copyFileSync, existsSync, mkdtempSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { ended, npm } from './child-process.mjs';
import { UNFINISHED } from './lock.mjs';

/** @typedef {{ version: string, integrity?: string, optional?: boolean, os?: string[], cpu?: string[], libc?: string[] }} LockedPackage */

const RECORD = join('node_modules', '.package-lock.json');
const CI = ['ci', '--include=dev', '--no-audit', '--no-fund', '--loglevel=error'];

/**
 * @param {string} root the clone's folder
 * @returns {boolean} whether every package of the lockfile is there in its version, as far as this kind of machine wants it
 */
export function packagesAreCurrent(root) {
  if (!existsSync(join(root, RECORD))) return false;
  const present = packagesIn(join(root, RECORD));
  return Object.entries(packagesIn(join(root, 'package-lock.json'))).every(([place, locked]) => {
    const installed = present[place];
    if (place === '') return true;
    if (installed === undefined) return locked.optional === true && !isMadeForThisMachine(locked);
    const same = installed.version === locked.version && installed.integrity === locked.integrity;
    return same && existsSync(join(root, place, 'package.json'));
  });
}

/**
 * @param {string} root
 * @param {(line: string) => void} say
 */
export async function installPackages(root, say) {
  say('Installing the packages of the lockfile (this takes a minute the first time).');
  const fresh = mkdtempSync(join(root, 'dist', UNFINISHED));
  for (const name of ['package.json', 'package-lock.json', '.npmrc']) {
    if (existsSync(join(root, name))) copyFileSync(join(root, name), join(fresh, name));
  }
  let status = await runNpm(CI, fresh);
  // A folder that is a mount of its own cannot be moved: npm replaces its contents where they are.
  if (status === 0 && !moveIntoPlace(root, fresh)) status = await runNpm(CI, root);
  rmSync(fresh, { recursive: true, force: true });
  if (status === 0) return;
  if (!existsSync(join(root, RECORD)))
    throw new Error('The packages could not be installed: npm ci failed, see above.');
  say('The packages could not be brought up to the lockfile; going on with those installed before.');
}

/**
 * @param {string[]} args
 * @param {string} cwd
 */
function runNpm(args, cwd) {
  return ended(npm(args, { cwd, stdio: ['ignore', 2, 2] }));
}

/**
 * @param {string} root
 * @param {string} fresh holds what is new, and afterwards what was there before
 */
function moveIntoPlace(root, fresh) {
  const modules = join(root, 'node_modules');
  try {
    if (existsSync(modules)) renameSync(modules, join(fresh, 'before'));
    renameSync(join(fresh, 'node_modules'), modules);
    return true;
  } catch {
    return false;
  }
}

/**
 * Whether an optional package has to be here: those for any kind of machine, or for one C library of two, may be absent.
 * @param {LockedPackage} locked
 */
function isMadeForThisMachine({ os, cpu, libc }) {
  if (os === undefined || libc !== undefined) return false;
  return os.includes(process.platform) && cpu?.includes(process.arch) !== false;
}

/**
 * @param {string} lockfile
 * @returns {Record<string, LockedPackage>}
 */
function packagesIn(lockfile) {
  try {
    return JSON.parse(readFileSync(lockfile, 'utf8')).packages ?? {};
  } catch {
    // An install that was killed has left half of it: that counts as nothing installed.
    return {};
  }
}
