/*
 * Lets one process at a time set a clone up. The holder touches the lock file each second. A lock that has stood
 * still for five seconds, as counted by the process that waits, was left by one that was killed. What is set up is
 * made in a folder of its own and moved into place when it is whole.
 */

import { existsSync, mkdirSync, readdirSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { constants } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { SIGNALS } from './child-process.mjs';

const BEAT_MS = 1000;
const SILENT_MS = 5000;
const POLL_MS = 200;
const PATIENCE_MS = 2000;
/** Begins the names in dist/ of folders that are being filled. */
export const UNFINISHED = '.new-';

/**
 * Does the work while no other process of this clone does.
 * @template Value
 * @param {string} root the clone's folder
 * @param {(line: string) => void} say told once when there is a wait
 * @param {() => Promise<Value>} work
 * @returns {Promise<Value>} what the work gives; the lock is given up whether or not it succeeds
 */
export async function withLock(root, say, work) {
  const dist = join(root, 'dist');
  const file = join(dist, '.lock');
  try {
    mkdirSync(dist, { recursive: true });
    await take(file, say);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    throw new Error(`Lanecall has to be set up by somebody who may write to its folder (${reason}).`, { cause: error });
  }
  const beat = setInterval(() => existsSync(file) && utimesSync(file, new Date(), new Date()), BEAT_MS);
  const giveUp = () => rmSync(file, { force: true });
  // exit() also ends what was started for the work.
  const leave = (/** @type {NodeJS.Signals} */ signal) => process.exit(128 + constants.signals[signal]);
  process.on('exit', giveUp);
  for (const signal of SIGNALS) process.once(signal, leave);
  try {
    const left = readdirSync(dist).filter((name) => name.startsWith(UNFINISHED));
    for (const name of left) rmSync(join(dist, name), { recursive: true, force: true, maxRetries: 5 });
    return await work();
  } finally {
    clearInterval(beat);
    process.off('exit', giveUp);
    for (const signal of SIGNALS) process.off(signal, leave);
    giveUp();
  }
}

/**
 * @param {string} file
 * @param {(line: string) => void} say
 */
async function take(file, say) {
  for (let [waited, quiet, touched] = [0, 0, 0]; !isMade(file); waited += POLL_MS) {
    const now = statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? 0;
    quiet = now === touched ? quiet + POLL_MS : 0;
    touched = now;
    if (quiet > SILENT_MS) rmSync(file, { force: true });
    if (waited === PATIENCE_MS) say('Waiting for another Lanecall command to finish setting this folder up.');
    await pause(POLL_MS);
  }
}

/** @param {string} file false where it exists already */
function isMade(file) {
  try {
    writeFileSync(file, '', { flag: 'wx' });
    return true;
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'EEXIST') return false;
    throw error;
  }
}
