/* Sockets of the network of which nobody knows yet who they are: how many there may be, and for how long, over fake time. */

import { once } from 'node:events';
import { connect } from 'node:net';
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
async function come(from: string, call = from): Promise<DoorSocket> {
  const comer = await DoorSocket.open({ host: deck.network, from });
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

  test('those that show their digits stay while there are others that can go', async () => {
    const wall = await DoorSocket.open({ host: deck.network, from: '127.0.2.1', socket: 'wall' });
    wall.say({ say: 'show', version: JOINING_VERSION });
    expect(await wall.heard()).toMatchObject({ say: 'digits' });
    for (let n = 0; n < 96; n++) await come(`127.0.4.${n + 1}`, `${n}`);
    await expect.poll(() => gone).toEqual(['0']);
    // It is still heard, and says too much.
    wall.say({ say: 'show', version: JOINING_VERSION });
    expect(await wall.heard()).toMatchObject({ say: 'bye' });
  });

  test('one that sends more than a joining takes is hung up on before its frame is whole', async () => {
    const { network } = deck;
    const [address, port] = network.split(':') as [string, string];
    const raw = connect({ host: address, port: Number(port), localAddress: '127.0.1.9' });
    const asks = { Host: network, Origin: `http://${network}`, Upgrade: 'websocket', Connection: 'Upgrade' };
    const key = { 'Sec-WebSocket-Version': '13', 'Sec-WebSocket-Key': 'AAAAAAAAAAAAAAAAAAAAAA==' };
    const headers = Object.entries({ ...asks, ...key }).map(([name, value]) => `${name}: ${value}`);
    raw.write(`GET /deck HTTP/1.1\r\n${headers.join('\r\n')}\r\n\r\n`);
    await once(raw, 'data');
    const closed = once(raw, 'close');
    // The head of a frame of 1 MiB, and a part of it.
    raw.write(Buffer.from([0x81, 0xff, 0, 0, 0, 0, 0, 0x10, 0, 0, 1, 2, 3, 4]));
    raw.write(Buffer.alloc(32_768));
    raw.on('error', () => undefined);
    await closed;
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
