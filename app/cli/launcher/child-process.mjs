/*
 * Starts other programs for the launcher. None of them outlives it, and npm is found on every system.
 */

import { spawn } from 'node:child_process';
import { constants } from 'node:os';
import { basename } from 'node:path';

export const SIGNALS = /** @type {const} */ (['SIGINT', 'SIGTERM', 'SIGHUP']);

/**
 * @param {import('node:child_process').ChildProcess} child ended at once when this process exits
 * @returns {Promise<number>} its exit status, as a shell writes it where a signal ended it; rejects where it cannot start
 */
export function ended(child) {
  const end = () => child.kill('SIGKILL');
  process.on('exit', end);
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (status, signal) => {
      process.off('exit', end);
      resolve(status ?? 128 + (signal === null ? 0 : constants.signals[signal]));
    });
  });
}

/**
 * Waits for a program that does the work of this one, and passes signals on to it meanwhile.
 * @param {import('node:child_process').ChildProcess} child
 */
export function standIn(child) {
  /** @type {NodeJS.Timeout | undefined} */
  let timer;
  const handOn = (/** @type {NodeJS.Signals} */ signal) => {
    const wait = handedOnAfter(signal, { platform: process.platform, isTerminal: process.stdin.isTTY === true });
    if (wait !== null) timer ??= setTimeout(() => ((timer = undefined), child.kill(signal)), wait);
  };
  for (const signal of SIGNALS) process.on(signal, handOn);
  return ended(child).finally(() => {
    clearTimeout(timer);
    for (const signal of SIGNALS) process.off(signal, handOn);
  });
}

// Time for the program to end by itself: on Windows a signal that is passed on ends it without asking.
const TIME_TO_END_MS = 3000;

/**
 * After how many ms a signal is passed on to the child; null for never. A terminal sends Ctrl-C to the child too, and
 * a second one would look like impatience. On Windows a program with windows may not be attached to the terminal
 * (electron/electron#5273): it is ended if it has not ended by itself.
 * @param {NodeJS.Signals} signal
 * @param {{ platform: NodeJS.Platform, isTerminal: boolean }} machine
 */
export function handedOnAfter(signal, { platform, isTerminal }) {
  if (signal !== 'SIGINT' || !isTerminal) return 0;
  return platform === 'win32' ? TIME_TO_END_MS : null;
}

/**
 * @param {string[]} args words without spaces
 * @param {import('node:child_process').SpawnOptions} options
 */
export function npm(args, options) {
  // npm tells the programs that it starts where it is. Otherwise a shell finds it: on Windows npm is a batch file.
  const script = process.env['npm_execpath'] ?? '';
  return basename(script) === 'npm-cli.js'
    ? spawn(process.execPath, [script, ...args], options)
    : spawn(['npm', ...args].join(' '), { ...options, shell: true });
}
