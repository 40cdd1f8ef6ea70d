/*
 * A program that is started to do the work in this one's place.
 */

import { constants } from 'node:os';

/**
 * Waits for a program, handing signals on to it.
 * @param {import('node:child_process').ChildProcess} child
 * @returns {Promise<number>} its exit status, as a shell writes it where a signal ended it
 */
export function ended(child) {
  /** @type {NodeJS.Signals[]} */
  const signals = ['SIGTERM', 'SIGHUP', 'SIGINT'];
  for (const signal of signals) {
    process.on(signal, () => {
      // Ctrl-C in a terminal reaches the child by itself; a second one would read as impatience.
      if (signal !== 'SIGINT' || !process.stdin.isTTY) child.kill(signal);
    });
  }
  process.on('exit', () => child.kill('SIGKILL'));
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (status, signal) => resolve(status ?? 128 + (signal === null ? 0 : constants.signals[signal])));
  });
}
