/*
 * What `npm start` adds to `serve`: a sample session where none is given, and the reason why the
 * program is served to a browser instead of opening in a window of its own.
 */

import { join } from 'node:path';
import { parseArgs } from 'node:util';

const SAMPLE = 'harbour-thursday.txt';

/**
 * @param {string[]} args what stands after `npm start --`
 * @param {string} root
 * @returns {string[]} the arguments of `serve`: as given, with the sample session where they name none
 */
export function startArguments(args, root) {
  const { positionals, values } = parseArgs({
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
  return positionals.length > 0 || values['help'] === true ? args : [join(root, 'assets', SAMPLE), ...args];
}

/** @returns {string} one line for people */
export function whyNotDesktop() {
  return 'The desktop program is not built yet; serving the same program to browsers instead.';
}
