/*
 * `npm run soak:door [-- --guesses N] [--kills N] [--floods SECONDS]`: the built program shares on a network of its own (a namespace of
 * Linux with 65 000 addresses), and others come at its doors for real. Codes, keys and digits are guessed from 64
 * addresses as fast as the program answers, while a phone joins; a code is used twice, late and by two at once; what went
 * over the air is searched for names and keys; the program is killed in the middle of a run, after a device was thrown
 * out; and its doors are flooded while a coach stops and resumes. Prints its figures; exit status 1 where anything is wrong.
 */

import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { ADDRESS } from './shared-pool.ts';
import { tryAir } from './air.ts';
import { tryCodes } from './codes.ts';
import { tryFloods } from './floods.ts';
import { tryGuesses } from './guesses.ts';
import { tryKills } from './kills.ts';

const { values } = parseArgs({
  options: {
    guesses: { type: 'string', default: '100000' },
    kills: { type: 'string', default: '10' },
    floods: { type: 'string', default: '10' },
  },
});

const INSIDE = 'LANECALL_SOAK_INSIDE';
process.exitCode = process.env[INSIDE] === undefined ? await goInside() : await tryAll();

async function tryAll(): Promise<number> {
  const wrong = [
    ...(await tryGuesses(Number(values.guesses))),
    ...(await tryCodes()),
    ...(await tryAir()),
    ...(await tryKills(Number(values.kills))),
    ...(await tryFloods(Number(values.floods))),
  ];
  for (const line of wrong) process.stdout.write(`${line}\n`);
  process.stdout.write(wrong.length === 0 ? 'Nothing wrong.\n' : `${wrong.length} wrong.\n`);
  return wrong.length === 0 ? 0 : 1;
}

/** The same once more, in a namespace where that address is this machine's. */
async function goInside(): Promise<number> {
  const network = `ip link set lo up && ip address add ${ADDRESS}/16 dev lo && exec "$@"`;
  const again = [process.execPath, ...process.execArgv, fileURLToPath(import.meta.url), ...process.argv.slice(2)];
  const child = spawn('unshare', ['--map-root-user', '--net', 'sh', '-c', network, 'sh', ...again], {
    stdio: 'inherit',
    env: { ...process.env, [INSIDE]: 'yes' },
  });
  child.on('error', () => process.stderr.write('This needs Linux, with unshare and ip.\n'));
  const [status] = (await once(child, 'close')) as [number | null];
  return status ?? 1;
}
