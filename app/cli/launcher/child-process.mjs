/*
 * Programs that the launcher starts. None outlives it, and npm is found on every system.
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
 * Waits for a program that does this one's work, and hands signals on to it meanwhile.
 * @param {import('node:child_process').ChildProcess} child
 */
export function standIn(child) {
  const handOn = (/** @type {NodeJS.Signals} */ signal) => {
    // Ctrl-C in a terminal reaches the child by itself; a second one would read as impatience.
    if (signal !== 'SIGINT' || !process.stdin.isTTY) child.kill(signal);
  };
  for (const signal of SIGNALS) process.on(signal, handOn);
  return ended(child).finally(() => SIGNALS.forEach((signal) => process.off(signal, handOn)));
}

/**
 * @param {string[]} args words without spaces
 * @param {import('node:child_process').SpawnOptions} options
 */
export function npm(args, options) {
  // What npm itself has started knows where npm is. Else a shell finds it: on Windows it is a batch file.
  const script = process.env['npm_execpath'] ?? '';
  return basename(script) === 'npm-cli.js'
    ? spawn(process.execPath, [script, ...args], options)
    : spawn(['npm', ...args].join(' '), { ...options, shell: true });
}
