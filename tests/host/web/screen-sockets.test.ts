/* The socket at /deck over fake time: what it waits for, and that nothing is left behind when a screen goes. */

import { once } from 'node:events';
import type { IncomingMessage } from 'node:http';
import { PassThrough } from 'node:stream';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { WebSocket } from 'ws';
import { NEWS_EVERY } from '../../../app/host/screens/news-pace.ts';
import { ALONE } from '../../../app/host/deck/telling/company.ts';
import { Doorstep } from '../../../app/host/web/limits/doorstep.ts';
import { screenSockets } from '../../../app/host/web/screen-sockets.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { DeckServerUnderTest } from '../../support/host/deck/deck-server.ts';

let clock: FakeClock;
let server: DeckServerUnderTest;

beforeEach(async () => {
  clock = new FakeClock();
  server = await DeckServerUnderTest.start(new Map(), { clock, timers: clock.timers });
});
afterEach(async () => {
  const closed = server.close();
  clock.advance(250);
  await closed;
});

const opened = async (): Promise<WebSocket> => (await server.socket()) as WebSocket;

/** One that has said hello, when that is no news any more. */
const greeted = async (): Promise<WebSocket> => {
  const { socket } = await server.screen();
  clock.advance(NEWS_EVERY);
  return socket;
};

const nothingIsPending = (): Promise<void> =>
  expect
    .poll(() => {
      clock.advance(NEWS_EVERY);
      return clock.pending;
    })
    .toBe(0);

describe('[socket] a screen that goes', () => {
  test.each([
    ['after its hello', greeted],
    ['before it', opened],
  ])('%s is no longer waited for', async (_, come) => {
    const socket = await come();
    expect(clock.pending).toBe(2);
    socket.close();
    await once(socket, 'close');
    await nothingIsPending();
    expect(server.host.presence.now().desk).toBe(0);
  });

  test('after it was told to go is not waited for', async () => {
    const socket = await opened();
    const closed = once(socket, 'close');
    socket.send('junk');
    await closed;
    await expect.poll(() => clock.pending).toBe(0);
  });
});

describe('[socket] a screen that is told to go', () => {
  test('and does not go is hung up on a second later', async () => {
    const socket = await greeted();
    socket.pause();
    socket.send('junk');
    // Its hello and its pings have a timer each, the goodbye one more; that it goes is news.
    await expect.poll(() => clock.pending).toBe(4);
    clock.advance(999);
    expect(socket.readyState).toBe(WebSocket.OPEN);
    clock.advance(1);
    await nothingIsPending();
    socket.resume();
    await once(socket, 'close');
  });

  test.each([
    ['bytes', Buffer.from([1, 2, 3]), 'A message must be text.'],
    ['junk', 'junk', 'That was not a message of a screen.'],
  ])('for %s gets the reason', async (_, sent, why) => {
    const screen = await server.screen();
    screen.socket.send(sent);
    expect(await screen.hears(({ say }) => say === 'bye')).toMatchObject({ why });
    expect(await screen.closed()).toBe(1008);
  });

  test.each(['ping', 'pong'] as const)('for a flood of bare %ss is told so', async (frame) => {
    const screen = await server.screen();
    for (let n = 0; n < 50; n++) screen.socket[frame]();
    expect(await screen.hears(({ say }) => say === 'bye')).toMatchObject({ why: 'Too many messages.' });
    await screen.closed();
  });

  test('and does not go counts as a silent connection, whose place another can take', async () => {
    const rude = await opened();
    rude.pause();
    rude.send('junk');
    await expect.poll(() => clock.pending).toBe(3);
    for (let more = 0; more < 32; more++) await opened();
    // A hello and a ping are waited for from each of the others.
    await expect.poll(() => clock.pending).toBe(64);
    rude.resume();
    await once(rude, 'close');
  });

  test('while far more waits for it than it reads is hung up on without a word', async () => {
    const { socket } = await server.screen();
    socket.pause();
    server.host.tell('a test', 'x'.repeat(16 * 1024 * 1024));
    socket.send(JSON.stringify({ say: 'ping', n: 1, t1: 0 }));
    await nothingIsPending();
    socket.terminate();
  });

  test('because it did not say hello gets that reason', async () => {
    const socket = await opened();
    const said = once(socket, 'message') as Promise<[Buffer]>;
    clock.advance(5000);
    expect(JSON.parse((await said)[0].toString())).toMatchObject({
      say: 'bye',
      why: 'A screen must say hello within 5 seconds.',
    });
  });
});

describe('[socket] a screen that stays', () => {
  test('is pinged every five seconds, each time with other bytes', async () => {
    const { socket } = await server.screen();
    const words: string[] = [];
    socket.on('ping', (word: Buffer) => words.push(word.toString()));
    for (let asked = 1; asked <= 4; asked++) {
      clock.advance(4999);
      await new Promise((resolve) => setImmediate(resolve));
      expect(words).toHaveLength(asked - 1);
      clock.advance(1);
      await expect.poll(() => words.length).toBe(asked);
      // The answer has arrived: what the screen says after it has.
      socket.send(JSON.stringify({ say: 'ping', n: asked, t1: 0 }));
      await once(socket, 'message');
    }
    expect(new Set(words).size).toBe(4);
    expect(words.every((word) => word.length > 30)).toBe(true);
    expect(socket.readyState).toBe(WebSocket.OPEN);
  });

  test('gets its messages uncompressed, because compressing takes time', async () => {
    const { socket } = await server.screen();
    expect(socket.extensions).toBe('');
  });
});

test('[socket] a connection that breaks while it is refused does no harm', () => {
  const connection = new PassThrough();
  const request = { headers: {}, rawHeaders: [] as string[], url: '/deck' } as IncomingMessage;
  const { host } = server;
  const rest = { company: ALONE, entrance: null, doorstep: new Doorstep(1), hostOf: () => null };
  const sockets = screenSockets({ host, clock, timers: clock.timers, listener: 'machine', ...rest });
  sockets.upgrade(request, connection, Buffer.alloc(0));
  connection.emit('error', new Error('ECONNRESET'));
  expect(connection.destroyed).toBe(true);
});

test('[socket] a request under a host name that is not ours is refused, whatever Origin it claims', async () => {
  expect(await server.socket({ headers: { Host: 'pool.example' }, origin: 'http://null' })).toBe(403);
});
