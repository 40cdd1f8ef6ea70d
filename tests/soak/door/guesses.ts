/*
 * Guesses from 64 addresses: codes, keys of remotes and of walls, and walls that show digits and wait. None may come in,
 * and a phone that has scanned the code must come in within two seconds meanwhile.
 */

import { randomBytes, randomInt } from 'node:crypto';
import { statSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { JOINING_VERSION } from '../../../app/wire/sharing/joining.ts';
import { codeOf } from '../../../app/wire/sealing/code.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { DoorSocket } from '../../support/host/sharing/door-socket.ts';
import { SharedPool } from './shared-pool.ts';

const ADDRESSES = 64;
/** At once from each address: as many as may be unproven. */
const AT_ONCE = 8;
const PHONES = 10;

/** In ms. */
const PAIRS_WITHIN = 2000;

interface Tally {
  guesses: number;
  readonly cameIn: string[];
  refusedAtOnce: number;
}

export async function tryGuesses(guesses: number): Promise<readonly string[]> {
  if (guesses === 0) return [];
  const data = freshDataFolder();
  const pool = await SharedPool.open(data);
  const tally: Tally = { guesses: 0, cameIn: [], refusedAtOnce: 0 };
  try {
    const begun = performance.now();
    const guessing = Promise.all(
      Array.from({ length: ADDRESSES * AT_ONCE }, (_, n) => {
        const from = `10.77.1.${1 + (n % ADDRESSES)}`;
        return keepGuessing(pool.network, from, n, tally, guesses);
      }),
    );
    const paired: number[] = [];
    for (let n = 0; n < PHONES; n++) {
      await pause(1000);
      paired.push(await pair(pool, `10.77.2.${n + 1}`));
    }
    await guessing;
    const minutes = (performance.now() - begun) / 60_000;
    const { devices } = await pool.coach.told(({ devices }) => devices.length > PHONES);
    const log = statSync(join(data, 'visitors.jsonl')).size;
    paired.sort((a, b) => a - b);
    process.stdout.write(
      `guesses: ${tally.guesses} in ${minutes.toFixed(2)} minutes (${Math.round(tally.guesses / minutes)} a minute) from ${ADDRESSES} ` +
        `addresses, ${tally.refusedAtOnce} of them hung up on before they were heard, ${tally.cameIn.length} came in; a phone paired ${PHONES} times meanwhile, in ${Math.round(paired[PHONES / 2]!)} ms ` +
        `(median), ${Math.round(paired.at(-1)!)} ms at worst; the visitors’ file has ${log} bytes\n`,
    );
    return [
      ...tally.cameIn.map((what) => `a guess came in: ${what}`),
      ...(devices.length === PHONES + 1 ? [] : [`${devices.length} devices were let in, not ${PHONES} and the coach`]),
      ...(paired.at(-1)! <= PAIRS_WITHIN ? [] : [`a phone took ${paired.at(-1)} ms to pair`]),
    ];
  } finally {
    await pool.end();
  }
}

/** From the coach's tap to the phone's first snapshot, in ms. */
async function pair({ coach, network }: SharedPool, from: string): Promise<number> {
  const begun = performance.now();
  const code = await coach.newCode();
  const phone = await DoorSocket.open({ host: network, from });
  if (!(await phone.join(code))) throw new Error('A code that is shown lets nobody in.');
  phone.hello('remote');
  await phone.hears('snapshot');
  phone.close();
  return performance.now() - begun;
}

async function keepGuessing(host: string, from: string, n: number, tally: Tally, most: number): Promise<void> {
  while (tally.guesses < most) {
    tally.guesses++;
    try {
      const what = await guess(host, from, n);
      if (what !== null) tally.cameIn.push(what);
    } catch {
      tally.refusedAtOnce++;
    }
  }
}

/** What has come in; null for nothing. */
async function guess(host: string, from: string, n: number): Promise<string | null> {
  const hex = (bytes: number): string => randomBytes(bytes).toString('hex');
  const isWall = n % 4 > 1;
  const socket = await DoorSocket.open({ host, from, socket: isWall ? 'wall' : 'deck' });
  try {
    switch (n % 4) {
      case 0:
        return (await socket.join(codeOf(randomBytes(20)))) && 'a code';
      case 1:
        return (await socket.comeBack({ id: hex(8), key: hex(32) })) ? 'a key' : null;
      case 2:
        socket.say({ say: 'look', version: JOINING_VERSION, key: hex(32) });
        return (await socket.heard())?.say === 'welcome' ? 'a key of a wall' : null;
      default:
        socket.say({ say: 'show', version: JOINING_VERSION });
        await socket.heard();
        // It stays a while, as one that waits to be typed in.
        await pause(randomInt(200));
        return null;
    }
  } finally {
    socket.close();
  }
}
