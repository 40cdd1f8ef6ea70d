/*
 * `npm run soak [-- --seed N] [--sessions N] [--trials N] [--kills N] [--typing N] [--minutes N]`: what is too long for every
 * test run. Mutated sessions are parsed, none of which may throw, hang or give a fault without its place; random
 * trials are held against the independent model; the built program is killed at random moments, also
 * while a coach types; and a session is
 * run in real time on a busy machine. 0 leaves one out. Prints its seeds and figures; exit status 1 where anything
 * is wrong.
 */

import { parseArgs } from 'node:util';
import { soakParser } from './parser.ts';
import { soakAgreement } from './agreement.ts';
import { soakCrashes } from './crashes.ts';
import { soakLateness } from './lateness.ts';
import { soakTyping } from './typing.ts';

const { values } = parseArgs({
  options: {
    seed: { type: 'string', default: '1' },
    sessions: { type: 'string', default: '200000' },
    trials: { type: 'string', default: '2000' },
    kills: { type: 'string', default: '250' },
    typing: { type: 'string', default: '20' },
    minutes: { type: 'string', default: '10' },
  },
});
const seed = Number(values.seed);
const wrong = [
  ...soakParser(seed, Number(values.sessions)),
  ...soakAgreement(seed, Number(values.trials)),
  ...(await soakCrashes(seed, Number(values.kills))),
  ...(await soakTyping(seed, Number(values.typing))),
  ...(await soakLateness(seed, Number(values.minutes))),
];
for (const line of wrong) process.stdout.write(`${line}\n`);
process.stdout.write(wrong.length === 0 ? 'Nothing wrong.\n' : `${wrong.length} wrong.\n`);
process.exitCode = wrong.length === 0 ? 0 : 1;
