/*
 * What `npm start` adds to `serve`: how its arguments are read, a sample session where none is given, and that one
 * with faults is opened in the coach's editor.
 */

import { join } from 'node:path';
import { parseArgs } from 'node:util';

const SAMPLE = 'harbour-thursday.txt';

/**
 * @param {string[]} args what stands after `npm start --`
 * @param {string} root
 * @returns {string[]} the arguments of `serve`
 */
export function startArguments(args, root) {
  const { positionals, values } = readStartArguments(args);
  if (values['help'] === true) return args;
  return [...(positionals.length > 0 ? ['--draft'] : ['--sample', join(root, 'assets', SAMPLE)]), ...args];
}

/** @param {string[]} args what stands after `npm start --` */
export function readStartArguments(args) {
  return parseArgs({
    args,
    // Faults in them are for `serve` to find and to word.
    strict: false,
    allowPositionals: true,
    options: {
      lanes: { type: 'string' },
      port: { type: 'string' },
      data: { type: 'string' },
      share: { type: 'boolean' },
      help: { type: 'boolean' },
    },
  });
}
