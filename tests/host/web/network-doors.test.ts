/*
 * The doors on real sockets: guesses from many addresses, what goes over the air, and who is thrown out. With more of
 * each, and the built program: `npm run soak:door`.
 */

import { randomBytes } from 'node:crypto';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { openDeck, type OpenDeck } from '../../../app/host/deck/deck-opening.ts';
import type { Sharing } from '../../../app/host/sharing/sharing.ts';
import { systemClock } from '../../../app/host/time/clock.ts';
import { systemTimers } from '../../../app/host/time/timers.ts';
import { openSharing } from '../../../app/host/web/share.ts';
import { JOINING_VERSION, type KeyGiven } from '../../../app/wire/sharing/joining.ts';
import { codeOf } from '../../../app/wire/sealing/code.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { DoorSocket, type Frame } from '../../support/host/sharing/door-socket.ts';
import { freePort } from '../../support/host/free-port.ts';

const HERE = '127.0.0.1';
const NAMES = ['Quillon', 'Zephyrine'];
const TEXT = `lane 1: ${NAMES[0]}\nlane 2: ${NAMES[1]}\nMain set\n8 x 50 @ 1:00\n`;

let deck: OpenDeck;
let sharing: Sharing;
let host: string;
let open: DoorSocket[];

beforeEach(async () => {
  open = [];
  const clock = systemClock();
  const opening = await openDeck(freshDataFolder(), clock, systemTimers);
  if (!opening.ok) throw new Error('the data folder is not free');
  ({ deck } = opening);
  await deck.host.open({ text: TEXT, lanesText: null }, { replace: false });
  const network = await freePort();
  host = `${HERE}:${network}`;
  ({ sharing } = openSharing({
    deck,
    clock,
    timers: systemTimers,
    pages: new Map(),
    ports: () => ({ network, pages: null }),
    addresses: () => [{ address: HERE, name: 'lo' }],
  }));
  expect(await sharing.share(HERE)).toBeNull();
});

afterEach(async () => {
  for (const socket of open) socket.close();
  await sharing.end('The test is over.');
  await deck.close();
});

async function come(from = HERE, socket: 'deck' | 'wall' = 'deck'): Promise<DoorSocket> {
  const comer = await DoorSocket.open({ host, from, socket });
  open.push(comer);
  return comer;
}

async function remote(
  from = HERE,
): Promise<{ readonly phone: DoorSocket; readonly given: KeyGiven; readonly code: string }> {
  const code = deck.doorBook.showCode('remote').letters;
  const phone = await come(from);
  const given = await phone.join(code);
  if (!given) throw new Error('A code that is shown lets nobody in.');
  phone.hello('remote');
  return { phone, given, code };
}

async function wall(from = HERE): Promise<DoorSocket> {
  const screen = await come(from, 'wall');
  screen.say({ say: 'show', version: JOINING_VERSION });
  const shown = await screen.heard();
  expect(deck.doorBook.letInWall(shown?.say === 'digits' ? shown.digits : '')).toBeNull();
  expect((await screen.heard())?.say).toBe('let-in');
  screen.hello('wall');
  return screen;
}

test('of guesses from 64 addresses none comes in, and a phone that has the code pairs meanwhile', async () => {
  const cameIn: unknown[] = [];
  const hex = (bytes: number): string => randomBytes(bytes).toString('hex');
  const guess = async (n: number): Promise<void> => {
    const from = `127.0.1.${1 + (n % 64)}`;
    const socket = await come(from, n % 3 === 2 ? 'wall' : 'deck').catch(() => null);
    if (!socket) return;
    if (n % 3 === 0) cameIn.push(await socket.join(codeOf(randomBytes(20))));
    if (n % 3 === 1) cameIn.push(await socket.comeBack({ id: hex(8), key: hex(32) }));
    if (n % 3 === 2) {
      socket.say({ say: 'look', version: JOINING_VERSION, key: hex(32) });
      cameIn.push((await socket.heard())?.say === 'welcome');
    }
  };
  // Walls that wait to be let in, from each address.
  const waiting = await Promise.all(Array.from({ length: 64 }, (_, n) => come(`127.0.1.${1 + n}`, 'wall')));
  for (const socket of waiting) socket.say({ say: 'show', version: JOINING_VERSION });
  const guessing = Promise.all(Array.from({ length: 192 }, (_, n) => guess(n)));
  const { phone } = await remote('127.0.2.1');
  await phone.hears('snapshot');
  await guessing;
  expect(cameIn.length).toBeGreaterThan(100);
  expect(cameIn.filter(Boolean)).toEqual([]);
  expect(deck.doorBook.devices().map(({ name }) => name)).toEqual(['Remote 1']);
});

test('what goes over the air has no names, no code and no key of a remote in it', async () => {
  const { phone, given, code } = await remote();
  const { text, lanesText } = await phone.hears('text');
  phone.tell({ say: 'command', id: 'start', command: { do: 'start' } });
  await phone.hears('answer', ({ ok }) => ok);
  const again = await come();
  expect(await again.comeBack(given)).toBe(true);
  again.hello('remote');
  await again.hears('snapshot');
  const screen = await wall('127.0.0.2');
  await screen.hears('snapshot', ({ run }) => run !== null && run.commands.length > 0);
  const air = [phone, again, screen].flatMap(({ went }) => went);
  const has = (frame: Frame, secret: string | Buffer): boolean => Buffer.from(frame as Buffer).includes(secret);
  const secrets = [...NAMES, code, given.key, Buffer.from(given.key, 'hex')];
  expect(secrets.filter((secret) => air.some((frame) => has(frame, secret)))).toEqual([]);
  // The phone was told them, sealed.
  expect(NAMES.every((name) => `${text}${lanesText ?? ''}`.includes(name))).toBe(true);
});

test('a code that two phones photographed lets one of them in', async () => {
  for (let n = 0; n < 5; n++) {
    const code = deck.doorBook.showCode('remote').letters;
    const phones = await Promise.all([come(), come('127.0.0.2')]);
    const given = await Promise.all(phones.map((phone) => phone.join(code)));
    expect(given.filter((each) => each !== null).length).toBe(1);
  }
});

test('whoever is thrown out is hung up on and cannot come back; when sharing ends, so is everybody', async () => {
  const { phone, given } = await remote();
  const other = await remote();
  const screen = await wall();
  expect(await deck.doorBook.throwOut(given.id)).toBeNull();
  await phone.closed();
  expect(await (await come()).comeBack(given)).toBe(false);
  await other.phone.hears('snapshot');
  await sharing.stop();
  await Promise.all([other.phone.closed(), screen.closed()]);
  expect(await sharing.share(HERE)).toBeNull();
  expect(await (await come()).comeBack(other.given)).toBe(false);
});
