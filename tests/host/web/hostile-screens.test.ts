/* The socket at /deck on a real port, and others who mean no good or know no better; nobody else notices. */

import { once } from 'node:events';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { WebSocket } from 'ws';
import type { Pages } from '../../../app/host/web/pages.ts';
import { WIRE_VERSION, type FromHost } from '../../../app/wire/messages.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { DeckServerUnderTest, ScreenUnderTest } from '../../support/host/deck/deck-server.ts';

let server: DeckServerUnderTest;

beforeEach(async () => {
  server = await DeckServerUnderTest.start();
  await server.host.open({ text: 'Squad\n8 x 50 @ 1:00\n', lanesText: null }, { replace: false });
});
afterEach(() => server.close());

/** Asserts that a screen is served as ever: its ping comes back and its command counts. */
async function expectServed(screen: ScreenUnderTest, id: string): Promise<void> {
  screen.say({ say: 'ping', n: 77, t1: 1 });
  screen.say({ say: 'command', id, command: { do: 'mark' } });
  await screen.hears((message) => message.say === 'pong' && message.n === 77);
  expect(await screen.hears((message) => message.say === 'answer' && message.id === id)).toMatchObject({ ok: true });
}

describe('[socket] who may open one', () => {
  test.each([
    ['no Origin', {}, { origin: '' }, 403],
    ['a stranger’s Origin', {}, { origin: 'http://evil.example' }, 403],
    ['another name of ours', {}, { origin: 'http://localhost:PORT' }, 403],
    ['a stranger’s Host', { Host: 'evil.example' }, {}, 403],
    [
      'a stranger’s Host and Origin that agree',
      { Host: 'evil.example:PORT' },
      { origin: 'http://evil.example:PORT' },
      403,
    ],
  ] as [string, Record<string, string>, Record<string, string>, number][])(
    '%s: refused',
    async (_, headers, options, expected) => {
      const withPort = (fields: Record<string, string>) =>
        Object.fromEntries(
          Object.entries(fields).map(([name, value]) => [name, value.replace('PORT', String(server.port))]),
        );
      expect(await server.socket({ ...withPort(options), headers: withPort(headers) })).toBe(expected);
      expect(server.host.presence.now().desk).toBe(0);
    },
  );

  test('on another path it is refused', async () => {
    expect(await server.socket({}, '/')).toBe(404);
    expect(await server.socket({}, '/deck?x')).toBe(404);
  });

  test('at most 32 are open at once, and one that goes makes room', async () => {
    const early = (await server.socket()) as WebSocket;
    const screens = await Promise.all(Array.from({ length: 32 }, () => server.screen()));
    expect(await server.socket()).toBe(503);
    // One that was let in before and says hello now is told why it is hung up on.
    const late = new ScreenUnderTest(early);
    late.say({ say: 'hello', version: WIRE_VERSION, screen: 'wall' });
    expect(await late.hears((message) => message.say === 'bye')).toMatchObject({
      why: 'There are too many screens: close one of them.',
    });
    expect(server.host.presence.now()).toMatchObject({ desk: 32, wall: 0 });
    screens[0]!.socket.terminate();
    // The host hears of it a moment later.
    await expect.poll(() => server.socket()).toBeTypeOf('object');
  });
});

describe('[socket] screens that send what they should not', () => {
  test.each([
    ['junk', (socket: WebSocket) => socket.send('\u0000junk{')],
    ['bytes', (socket: WebSocket) => socket.send(Buffer.from([1, 2, 3]))],
    ['a message of 64 KiB and a byte', (socket: WebSocket) => socket.send('x'.repeat(64 * 1024 + 1))],
    [
      'a flood',
      (socket: WebSocket) => {
        for (let n = 0; n < 300; n++) socket.send(JSON.stringify({ say: 'ping', n, t1: 0 }));
      },
    ],
    [
      'a flood of bare pings',
      (socket: WebSocket) => {
        for (let n = 0; n < 300; n++) socket.ping();
      },
    ],
    ['gone without a word', (socket: WebSocket) => socket.terminate()],
  ])('%s: hung up on, and another screen notices nothing', async (_, misbehave) => {
    const good = await server.screen();
    const bad = await server.screen();
    misbehave(bad.socket);
    await bad.closed();
    await expectServed(good, 'after');
    await expect.poll(() => server.host.presence.now().desk).toBe(1);
  });

  test('junk is answered with the reason and its close code', async () => {
    const bad = await server.screen();
    bad.socket.send('junk');
    expect(await bad.hears((message) => message.say === 'bye')).toMatchObject({ why: expect.stringMatching(/\.$/) });
    expect(await bad.closed()).toBe(1008);
  });

  test('a broken frame ends its own connection alone', async () => {
    const good = await server.screen();
    const raw = await server.raw();
    raw.write(
      [
        'GET /deck HTTP/1.1',
        `Host: 127.0.0.1:${server.port}`,
        `Origin: ${server.origin}`,
        'Upgrade: websocket',
        'Connection: Upgrade',
        'Sec-WebSocket-Version: 13',
        'Sec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==',
        '\r\n',
      ].join('\r\n'),
    );
    await once(raw, 'data');
    // A frame from a client must be masked, and none has reserved bits here.
    raw.write(Buffer.from([0xff, 0x05, 1, 2, 3, 4, 5]));
    await once(raw, 'close');
    await expectServed(good, 'after');
  });
});

describe('[socket] screens that do not listen', () => {
  test('a screen that reads nothing holds nobody else up, and gets the latest when it reads again', async () => {
    const good = await server.screen();
    const deaf = await server.screen();
    deaf.socket.pause();
    const words = 'x'.repeat(200);
    // Snapshots grow with every mark; this is far more than any socket's buffers hold.
    for (let each = 0; each < 600; each++) await server.host.command(`mark-${each}`, { do: 'mark', words });
    await expectServed(good, 'after');
    const isLatest = (message: FromHost) => message.say === 'snapshot' && message.run?.commands.length === 601;
    await good.hears(isLatest);
    deaf.socket.resume();
    // It was spared what it could not take: it goes on with the latest snapshot.
    await deaf.hears(isLatest);
    expect(deaf.heard.filter(({ say }) => say === 'snapshot').length).toBeLessThan(601);
  });
});

describe('[socket] signs of life', () => {
  test('a screen that misses two is hung up on; one that answers stays', async () => {
    const clock = new FakeClock();
    const faked = await DeckServerUnderTest.start(new Map(), { clock, timers: clock.timers });
    const [good, dead] = [await faked.screen(), await faked.screen()];
    const pings = { good: 0 };
    good.socket.on('ping', () => pings.good++);
    // Reads nothing, so that its answers never come; the host's end of the connection looks well.
    dead.socket.pause();
    for (let asked = 1; asked <= 3; asked++) {
      expect(faked.host.presence.now().desk).toBe(2);
      clock.advance(5000);
      if (asked < 3) await expect.poll(() => pings.good).toBe(asked);
      await pongArrived(good);
    }
    await expect.poll(() => faked.host.presence.now().desk).toBe(1);
    expect(good.socket.readyState).toBe(WebSocket.OPEN);
    dead.socket.resume();
    expect(await dead.closed()).toBe(1006);
    const closed = faked.close();
    clock.advance(1000);
    await closed;
  });
});

/** What the screen sent before this has been read by the host. */
async function pongArrived(screen: ScreenUnderTest): Promise<void> {
  const n = 1000 + screen.heard.length;
  screen.say({ say: 'ping', n, t1: 0 });
  await screen.hears((message) => message.say === 'pong' && message.n === n);
}

describe('[socket] screens that only take a place', () => {
  async function faked(pages: Pages = new Map()): Promise<{ clock: FakeClock; own: DeckServerUnderTest }> {
    const clock = new FakeClock();
    return { clock, own: await DeckServerUnderTest.start(pages, { clock, timers: clock.timers }) };
  }

  async function end(own: DeckServerUnderTest, clock: FakeClock): Promise<void> {
    const closed = own.close();
    clock.advance(1000);
    await closed;
  }

  test('that never say hello are told why and hung up on after 5 s, and keep no screen out meanwhile', async () => {
    const { clock, own } = await faked();
    const good = await own.screen();
    const silent = (await Promise.all(Array.from({ length: 32 }, () => own.socket()))) as WebSocket[];
    const codes = silent.map(async (socket) => ((await once(socket, 'close')) as [number])[0]);
    await own.screen();
    expect(await codes[0]).toBe(1006);
    clock.advance(4999);
    expect(silent.slice(1).every(({ readyState }) => readyState === WebSocket.OPEN)).toBe(true);
    clock.advance(1);
    expect(new Set(await Promise.all(codes.slice(1)))).toEqual(new Set([1008]));
    expect(good.socket.readyState).toBe(WebSocket.OPEN);
    await end(own, clock);
  });

  test('that answer pings they cannot have read count as silent', async () => {
    const { clock, own } = await faked();
    const blind = await own.screen();
    blind.socket.pause();
    for (let asked = 1; asked <= 3; asked++) {
      blind.socket.pong('');
      blind.socket.pong('yes');
      blind.say({ say: 'ping', n: asked, t1: 0 });
      // Until the host has what it sent: another screen's question that comes after it.
      const other = await own.screen();
      other.socket.terminate();
      clock.advance(5000);
    }
    await expect.poll(() => own.host.presence.now().desk).toBe(0);
    blind.socket.terminate();
    await end(own, clock);
  });

  test('that flood pongs are treated as if they were messages', async () => {
    const bad = await server.screen();
    for (let n = 0; n < 300; n++) bad.socket.pong();
    expect(await bad.closed()).toBe(1008);
  });

  test('that ask for a page and do not read it are hung up on after 30 s', async () => {
    const body = Buffer.alloc(32 * 1024 * 1024);
    const { clock, own } = await faked(new Map([['/', { type: 'text/html', body, lasting: false }]]));
    const deaf = await own.raw();
    const ended = once(deaf, 'close');
    deaf.write(`GET / HTTP/1.1\r\nHost: 127.0.0.1:${own.port}\r\n\r\n`);
    await expect.poll(() => clock.pending).toBeGreaterThan(0);
    clock.advance(30_000);
    // What the host's machine has taken of the answer can still be read, and then there is the end.
    let read = 0;
    deaf.on('data', (chunk: Buffer) => (read += chunk.length));
    await ended;
    expect(read).toBeLessThan(body.length);
    await end(own, clock);
  });
});

describe('[server] a thousand idle connections', () => {
  const upgrade = (port: number, origin: string): string =>
    [
      'GET /deck HTTP/1.1',
      `Host: 127.0.0.1:${port}`,
      `Origin: ${origin}`,
      'Upgrade: websocket',
      'Connection: Upgrade',
      'Sec-WebSocket-Version: 13',
      'Sec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==',
      '\r\n',
    ].join('\r\n');
  const put = (port: number, origin: string): string =>
    `PUT /session HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\nOrigin: ${origin}\r\n` +
    'Content-Type: text/plain\r\nContent-Length: 1000\r\n\r\nSquad';

  test.each([
    ['say nothing', () => ''],
    ['never finish their headers', () => 'GET / HTTP/1.1\r\nHost: '],
    ['never finish their body', put],
    ['never say hello', upgrade],
  ])('that %s: connected screens stay, and a new screen gets in at once', async (_, words) => {
    const good = await server.screen();
    const held = await Promise.all(Array.from({ length: 1000 }, () => server.raw()));
    for (const each of held) {
      each.resume();
      each.write(words(server.port, server.origin));
    }
    const begun = performance.now();
    await expectServed(await server.screen(), 'new');
    expect((await server.ask('GET', '/healthz')).status).toBe(200);
    // Sooner than any of them is ended for taking too long.
    expect(performance.now() - begun).toBeLessThan(2500);
    await expectServed(good, 'there before');
    for (const each of held) each.destroy();
  });
});

describe('[server] slow and broken requests', () => {
  test('a request whose headers never end is closed, and so is a connection that sends nothing', async () => {
    const [socket, silent] = [await server.raw(), await server.raw()];
    const begun = performance.now();
    socket.write('GET / HTTP/1.1\r\nHost: ');
    let said = '';
    socket.on('data', (data: Buffer) => (said += data.toString()));
    silent.resume();
    await Promise.all([once(socket, 'close'), once(silent, 'close')]);
    expect(performance.now() - begun).toBeLessThan(7000);
    expect(said).toBe('HTTP/1.1 408 Request Timeout\r\nConnection: close\r\n\r\n');
  });

  test('a body that never comes keeps nobody waiting, and is closed', async () => {
    const socket = await server.raw();
    const begun = performance.now();
    socket.write(
      `PUT /session HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nOrigin: ${server.origin}\r\n` +
        'Content-Type: text/plain\r\nContent-Length: 1000\r\n\r\nSquad',
    );
    socket.resume();
    expect((await server.ask('GET', '/healthz')).status).toBe(200);
    await once(socket, 'close');
    expect(performance.now() - begun).toBeLessThan(7000);
    expect((await server.ask('GET', '/healthz')).status).toBe(200);
  });

  test('anything but HTTP is closed at once', async () => {
    const socket = await server.raw();
    socket.write('\u0016\u0003\u0001 hello\r\n\r\n');
    socket.resume();
    await once(socket, 'close');
    expect((await server.ask('GET', '/healthz')).status).toBe(200);
  });
});

describe('[server] closing', () => {
  test('says goodbye to every screen and takes at most half a second, even with screens that do not read', async () => {
    const [one, two] = [await server.screen(), await server.screen()];
    two.socket.pause();
    const begun = performance.now();
    const closed = server.close();
    expect(await one.hears((message) => message.say === 'bye')).toMatchObject({ say: 'bye', why: 'The test is over.' });
    await closed;
    expect(performance.now() - begun).toBeLessThan(1000);
    two.socket.resume();
    server = await DeckServerUnderTest.start();
  });
});
