/* Sockets of the network of which nobody knows yet who they are: how many there may be, and for how long, over fake time. */

import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { JOINING_VERSION } from '../../../app/wire/sharing/joining.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { DoorSocket } from '../../support/host/sharing/door-socket.ts';
import { SharedDeck } from '../../support/host/deck/shared-deck.ts';

let clock: FakeClock;
let deck: SharedDeck;
let gone: string[];

beforeEach(async () => {
  clock = new FakeClock();
  gone = [];
  deck = await SharedDeck.start({ clock, timers: clock.timers });
  expect(await deck.shared.sharing.share(null)).toBeNull();
});
afterEach(async () => {
  const closed = deck.close();
  for (let turn = 0; turn < 5; turn++) {
    clock.advance(100);
    await new Promise((resolve) => setImmediate(resolve));
  }
  await closed;
});

/** From this address; named for what becomes of it. */
async function come(from: string, call = from, socket: 'deck' | 'wall' = 'deck'): Promise<DoorSocket> {
  const comer = await DoorSocket.open({ host: deck.network, from, socket });
  void comer.closed().then(() => gone.push(call));
  return comer;
}

describe('[sharing] unproven sockets', () => {
  test('8 of one address: with a ninth its oldest goes, and nobody else’s', async () => {
    await come('127.0.1.1', 'another’s');
    for (let n = 1; n <= 9; n++) await come('127.0.1.2', `its ${n}.`);
    await expect.poll(() => gone).toEqual(['its 1.']);
  });

  test('96 of all: with one more the oldest of the address that holds most goes', async () => {
    await come('127.0.2.1', 'alone');
    for (let n = 0; n < 95; n++) await come(`127.0.3.${n < 8 ? 1 : 2 + Math.floor((n - 8) / 7)}`, `${n}`);
    expect(gone).toEqual([]);
    await come('127.0.2.2', 'the 97th');
    await expect.poll(() => gone).toEqual(['0']);
  });

  test('a silent one has 5 s; one that shows its digits may stay', async () => {
    await come('127.0.1.1', 'silent');
    const wall = await DoorSocket.open({ host: deck.network, from: '127.0.1.2', socket: 'wall' });
    wall.say({ say: 'show', version: JOINING_VERSION });
    expect(await wall.heard()).toMatchObject({ say: 'digits', left: 120_000 });
    clock.advance(4999);
    expect(gone).toEqual([]);
    clock.advance(1);
    await expect.poll(() => gone).toEqual(['silent']);
    // It is still heard: one that shows its digits says nothing else.
    wall.say({ say: 'show', version: JOINING_VERSION });
    expect(await wall.heard()).toMatchObject({ say: 'bye' });
  });
});
