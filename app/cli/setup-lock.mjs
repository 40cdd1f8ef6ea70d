/*
 * One process at a time sets a clone up: a file that names its holder, and the program that works for
 * it, which may outlive it. Either may be killed, so the file says which processes they were, closely
 * enough that a later one with the same number is not taken for them; a lock whose holders are all
 * gone is removed and taken anew.
 */

import { readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { constants } from 'node:os';
import { setTimeout as pause } from 'node:timers/promises';

/** @typedef {{ pid: number, born: string | null }} Holder `born` tells processes of one number apart where the system says */

// Often enough that nobody notices, seldom enough that six waiting processes cost nothing.
const POLL_MS = 100;
const PATIENCE_MS = 2000;
// A lock is created and filled in one call; one that is still empty after this was left by a killed process.
const FILLING_MS = 10_000;
/** @type {NodeJS.Signals[]} */
const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'];

/**
 * Does the work while no other process of this clone does. Waits as long as the holder lives.
 * @template Value
 * @param {string} file the lock; its folder must exist
 * @param {(line: string) => void} say told once when there is a wait
 * @param {(lendTo: (pid: number) => void) => Promise<Value>} work may lend the lock to one program it starts
 * @returns {Promise<Value>} what the work gives; the lock is given up whether or not it succeeds
 */
export async function withLock(file, say, work) {
  await take(file, say);
  const giveUp = () => rmSync(file, { force: true });
  // Leaving by exit() lets whoever started a program for this work end it too.
  const interrupted = (/** @type {NodeJS.Signals} */ signal) => process.exit(128 + constants.signals[signal]);
  process.on('exit', giveUp);
  for (const signal of SIGNALS) process.once(signal, interrupted);
  try {
    return await work((pid) => writeFileSync(file, JSON.stringify([holder(process.pid), holder(pid)])));
  } finally {
    process.off('exit', giveUp);
    for (const signal of SIGNALS) process.off(signal, interrupted);
    giveUp();
  }
}

/**
 * @param {string} file
 * @param {(line: string) => void} say
 */
async function take(file, say) {
  const mine = JSON.stringify([holder(process.pid)]);
  let waited = 0;
  while (!create(file, mine)) {
    if (isAbandoned(file)) {
      removeAbandoned(file);
      continue;
    }
    if (waited === PATIENCE_MS) say('Waiting for another Lanecall command to finish setting this folder up.');
    await pause(POLL_MS);
    waited += POLL_MS;
  }
}

/**
 * Two processes may find the same lock abandoned; the slower must not remove the faster one's new lock.
 * So removing has a guard of its own, held for one look and one removal.
 * @param {string} file
 */
function removeAbandoned(file) {
  const guard = `${file}-removal`;
  if (!create(guard, String(process.pid))) {
    if (ageMs(guard) > FILLING_MS) rmSync(guard, { force: true });
    return;
  }
  try {
    if (isAbandoned(file)) rmSync(file, { force: true });
  } finally {
    rmSync(guard, { force: true });
  }
}

/**
 * @param {string} file
 * @returns {boolean} whether nobody who could give the lock up is left
 */
export function isAbandoned(file) {
  const holders = holdersOf(file);
  if (holders === 'no file') return false;
  if (holders === null) return ageMs(file) > FILLING_MS;
  return holders.every(({ pid, born }) => !isAlive(pid) || (born !== null && born !== birthOf(pid)));
}

/**
 * @param {number} pid
 * @returns {Holder}
 */
export function holder(pid) {
  return { pid, born: birthOf(pid) };
}

/**
 * @param {string} file
 * @returns {Holder[] | null | 'no file'} null where the file does not say, because it is being written
 */
function holdersOf(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch (error) {
    return codeOf(error) === 'ENOENT' ? 'no file' : null;
  }
}

/** @param {number} pid */
function isAlive(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // EPERM: somebody else's, but there.
    return codeOf(error) === 'EPERM';
  }
}

/**
 * When a process began: the boot and the ticks since, as Linux keeps them.
 * @param {number} pid
 * @returns {string | null} null on other systems, and for a process that has ended
 */
export function birthOf(pid) {
  try {
    const boot = readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim();
    const status = readFileSync(`/proc/${pid}/stat`, 'utf8');
    // The name in brackets may hold spaces; the state comes after it, the start time 19 fields later.
    const fields = status.slice(status.lastIndexOf(')') + 2).split(' ');
    // Ended, with nobody to collect its status: containers keep such processes for as long as they run.
    return fields[0] === 'Z' ? null : `${boot} ${fields[19]}`;
  } catch {
    return null;
  }
}

/**
 * @param {string} file
 * @param {string} content
 * @returns {boolean} false where it already exists
 */
function create(file, content) {
  try {
    writeFileSync(file, content, { flag: 'wx' });
    return true;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    throw error;
  }
}

/** @param {string} file */
function ageMs(file) {
  try {
    return Date.now() - statSync(file).mtimeMs;
  } catch {
    return 0;
  }
}

/** @param {unknown} error */
function codeOf(error) {
  return error instanceof Error && 'code' in error ? error.code : null;
}
