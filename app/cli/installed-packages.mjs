/*
 * Whether the packages in node_modules are those of the lockfile, by the record npm keeps of what it
 * installed there.
 */

import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** @typedef {{ version: string, integrity?: string, optional?: boolean, os?: string[], cpu?: string[], libc?: string[] }} LockedPackage */

/**
 * @param {string} root the clone's folder
 * @returns {boolean} whether every package of the lockfile is there in its version, as far as this kind of machine wants it
 */
export function installedAgreesWithLockfile(root) {
  const record = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(record)) return false;
  const wanted = packagesIn(readFileSync(join(root, 'package-lock.json'), 'utf8'));
  const present = packagesIn(readFileSync(record, 'utf8'));
  return Object.entries(wanted).every(([place, locked]) => {
    if (place === '') return true;
    const installed = present[place];
    if (installed === undefined) return locked.optional === true && !isForThisPlatform(locked);
    return (
      installed.version === locked.version &&
      installed.integrity === locked.integrity &&
      existsSync(join(root, place, 'package.json'))
    );
  });
}

/**
 * Whether a package is made for this kind of machine. One for any kind that is marked optional is there
 * for the sake of others that may not be, so it says nothing.
 * @param {LockedPackage} locked
 */
function isForThisPlatform({ os, cpu, libc }) {
  if (os === undefined && cpu === undefined) return false;
  return admits(os, process.platform) && admits(cpu, process.arch) && (libc === undefined || admits(libc, cLibrary()));
}

/** As package.json names it; Node tells only by naming the version of one of the two. */
function cLibrary() {
  const report = /** @type {{ header?: { glibcVersionRuntime?: string } }} */ (process.report.getReport());
  return report.header?.glibcVersionRuntime === undefined ? 'musl' : 'glibc';
}

/**
 * @param {string[] | undefined} names as package.json writes them, a leading `!` excluding one
 * @param {string} name
 */
function admits(names, name) {
  if (names === undefined) return true;
  if (names.includes(`!${name}`)) return false;
  return names.includes(name) || names.every((each) => each.startsWith('!'));
}

/**
 * @param {string} lockfile
 * @returns {Record<string, LockedPackage>}
 */
function packagesIn(lockfile) {
  try {
    return JSON.parse(lockfile).packages ?? {};
  } catch {
    // Half-written by an install that was killed: as good as nothing installed.
    return {};
  }
}
