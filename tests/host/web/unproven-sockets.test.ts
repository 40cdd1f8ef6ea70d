/* Connections of the network of which nobody knows yet who they are: how many there may be, and for how long, over fake time. */

import { once } from 'node:events';
import { connect, type Socket } from 'node:net';
import { setTimeout as pause } from 'node:timers/promises';
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

/** A bare connection from this address. */
function reach(from: string): Socket {
  const [address, port] = deck.network.split(':') as [string, string];
  const raw = connect({ host: address, port: Number(port), localAddress: from });
  raw.on('error', () => undefined);
  return raw;
}

function asksForSocket(): string {
  const asks = { Host: deck.network, Origin: `http://${deck.network}`, Upgrade: 'websocket', Connection: 'Upgrade' };
  const key = { 'Sec-WebSocket-Version': '13', 'Sec-WebSocket-Key': 'AAAAAAAAAAAAAAAAAAAAAA==' };
  const headers = Object.entries({ ...asks, ...key }).map(([name, value]) => `${name}: ${value}`);
  return `GET /deck HTTP/1.1\r\n${headers.join('\r\n')}\r\n\r\n`;
}

/** The head of a frame of 1 MiB, and a part of it. */
const LONG_FRAME = Buffer.concat([
  Buffer.from([0x81, 0xff, 0, 0, 0, 0, 0, 0x10, 0, 0, 1, 2, 3, 4]),
  Buffer.alloc(32_768),
]);

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
    const raw = reach('127.0.1.9');
    raw.write(asksForSocket());
    await once(raw, 'data');
    const closed = once(raw, 'close');
    raw.write(LONG_FRAME);
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

describe('[sharing] an address that opens very many connections', () => {
  const isAsked = async (raw: Socket): Promise<string> => {
    raw.write(`GET /healthz HTTP/1.1\r\nHost: ${deck.network}\r\n\r\n`);
    const [answer] = (await once(raw, 'data')) as [Buffer];
    return answer.toString('utf8').split('\r\n')[0]!;
  };

  /** Whether it is answered now, over a few turns of the loop. */
  const isAnsweredNow = (asked: Promise<string>): Promise<boolean> =>
    Promise.race([asked.then(() => true), pause(50).then(() => false)]);

  const isReset = (raw: Socket): Promise<void> => new Promise((resolve) => raw.on('close', () => resolve()));

  async function openAll(from: string, count: number): Promise<Socket[]> {
    const all = Array.from({ length: count }, () => reach(from));
    await Promise.all(all.map((raw) => once(raw, 'connect')));
    return all;
  }

  test('waits unread from the 201st on, and is answered at its turn; another address does not wait', async () => {
    await openAll('127.0.5.1', 200);
    const waits = isAsked(reach('127.0.5.1'));
    expect(await isAsked(reach('127.0.5.2'))).toBe('HTTP/1.1 200 OK');
    expect(await isAnsweredNow(waits)).toBe(false);
    clock.advance(25);
    expect(await waits).toBe('HTTP/1.1 200 OK');
  });

  test('with a 33rd that waits, the one that waited longest is reset, unheard', async () => {
    await openAll('127.0.5.1', 200);
    const [first] = (await openAll('127.0.5.1', 1)) as [Socket];
    const closed = isReset(first);
    let heard = 0;
    first.on('data', () => heard++);
    first.write('no request\r\n\r\n');
    const others = await openAll('127.0.5.1', 32);
    await closed;
    expect(heard).toBe(0);
    const asked = isAsked(others.at(-1)!);
    clock.advance(32 * 25);
    expect(await asked).toBe('HTTP/1.1 200 OK');
  });

  test('one whose frames are too long soon waits', async () => {
    for (let n = 0; n < 10; n++) {
      const raw = reach('127.0.5.1');
      raw.write(asksForSocket());
      await once(raw, 'data');
      raw.write(LONG_FRAME);
      await once(raw, 'close');
    }
    const asked = isAsked(reach('127.0.5.1'));
    expect(await isAnsweredNow(asked)).toBe(false);
    // It owes ten of its 200: ten times 21 were taken.
    clock.advance(11 * 25);
    expect(await asked).toBe('HTTP/1.1 200 OK');
  });

  test('so does one whose requests are junk', async () => {
    for (let n = 0; n < 10; n++) {
      const raw = reach('127.0.5.1');
      raw.write('\u0000junk\r\n\r\n');
      const [answer] = (await once(raw, 'data')) as [Buffer];
      expect(answer.toString('utf8')).toMatch(/^HTTP\/1.1 400 /);
    }
    const asked = isAsked(reach('127.0.5.1'));
    expect(await isAnsweredNow(asked)).toBe(false);
    clock.advance(11 * 25);
    expect(await asked).toBe('HTTP/1.1 200 OK');
  });

  test('those that wait are reset when sharing ends', async () => {
    await openAll('127.0.5.1', 200);
    const [waits] = (await openAll('127.0.5.1', 1)) as [Socket];
    const closed = isReset(waits);
    void deck.shared.sharing.stop();
    await closed;
  });
});
