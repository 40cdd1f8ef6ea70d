/* The server over fake time: what it waits for and for how long, the addresses it cannot have, and its end. */

import { once } from 'node:events';
import type { ServerResponse } from 'node:http';
import { connect, Server, type AddressInfo, type ListenOptions, type Socket } from 'node:net';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { httpServer } from '../../../app/host/web/http-server.ts';
import { Connections } from '../../../app/host/web/limits/connections.ts';
import { PortTaken } from '../../../app/host/web/server.ts';
import { NEWS_EVERY } from '../../../app/host/screens/news-pace.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { DeckServerUnderTest } from '../../support/host/deck/deck-server.ts';

afterEach(() => vi.restoreAllMocks());

async function faked() {
  const clock = new FakeClock();
  return { clock, server: await DeckServerUnderTest.start(new Map(), { clock, timers: clock.timers }) };
}

/** Everything that the system has to tell by now has been told. */
const heard = (): Promise<void> => new Promise((resolve) => setImmediate(() => setImmediate(resolve)));

describe('[server] addresses', () => {
  /** The servers that ask for an address; those that ask for one of these are refused it. */
  function refusing(refused: Readonly<Record<string, string>>): Server[] {
    const servers: Server[] = [];
    // Called on the server that listens.
    const listen = Reflect.get(Server.prototype, 'listen') as (...given: unknown[]) => Server;
    vi.spyOn(Server.prototype, 'listen').mockImplementation(function (this: Server, ...given: unknown[]) {
      servers.push(this);
      const code = refused[(given[0] as ListenOptions).host!];
      if (code === undefined) return listen.apply(this, given);
      process.nextTick(() => this.emit('error', Object.assign(new Error(`listen ${code}`), { code })));
      return this;
    });
    return servers;
  }

  test.each(['EADDRNOTAVAIL', 'EAFNOSUPPORT', 'EINVAL'])(
    'a machine without IPv6 (%s) serves without it',
    async (code) => {
      const servers = refusing({ '::1': code });
      const server = await DeckServerUnderTest.start();
      expect((await server.ask('GET', '/healthz')).status).toBe(200);
      await server.close();
      expect(servers.map(({ listening }) => listening)).toEqual([false, false]);
    },
  );

  test('a port that this user may not use gives a sentence with what to do, and nothing is left listening', async () => {
    const servers = refusing({ '::1': 'EACCES' });
    const start = DeckServerUnderTest.start();
    await expect(start).rejects.toThrow(PortTaken);
    await expect(start).rejects.toThrow(/^This user may not use port \d+: choose one from 1024 up with --port N\.$/);
    await heard();
    expect(servers.map(({ listening }) => listening)).toEqual([false, false]);
  });

  test('any other failure is passed on as the system names it', async () => {
    refusing({ '127.0.0.1': 'ENOBUFS' });
    const start = DeckServerUnderTest.start();
    await expect(start).rejects.toThrow('listen ENOBUFS');
    await expect(start).rejects.not.toBeInstanceOf(PortTaken);
  });

  test('a connection that the system could not accept is lost, and the host goes on', async () => {
    const servers = refusing({});
    const server = await DeckServerUnderTest.start();
    for (const each of servers) each.emit('error', Object.assign(new Error('accept'), { code: 'EMFILE' }));
    expect((await server.ask('GET', '/healthz')).status).toBe(200);
    await server.close();
  });

  test('both are exclusive: no other process of this machine may listen there', async () => {
    const servers = refusing({});
    const server = await DeckServerUnderTest.start();
    const asked = vi.mocked(Server.prototype).listen.mock.calls.map(([options]) => options as unknown as ListenOptions);
    expect(asked).toEqual([
      { port: 0, host: '127.0.0.1', exclusive: true },
      { port: server.port, host: '::1', exclusive: true },
    ]);
    expect(servers).toHaveLength(2);
    await server.close();
  });
});

describe('[server] limits', () => {
  test('stop waiting once a request is answered', async () => {
    const { clock, server } = await faked();
    await server.ask('GET', '/healthz');
    await expect.poll(() => clock.pending).toBe(0);
    await server.close();
    expect(clock.pending).toBe(0);
  });

  test('give a request and its answer 30 s together', async () => {
    const clock = new FakeClock();
    let asked: (response: ServerResponse) => void = () => undefined;
    const response = new Promise<ServerResponse>((resolve) => (asked = resolve));
    const server = httpServer({
      timers: clock.timers,
      connections: new Connections(),
      answer: (_, slow) => Promise.resolve(asked(slow)),
      upgrade: () => undefined,
    });
    await once(server.listen(0, '127.0.0.1'), 'listening');
    const client = connect((server.address() as AddressInfo).port, '127.0.0.1');
    client.write('GET / HTTP/1.1\r\nHost: here\r\n\r\n');
    const slow = await response;
    clock.advance(29_999);
    expect(slow.destroyed).toBe(false);
    clock.advance(1);
    expect(slow.destroyed).toBe(true);
    await once(client, 'close');
    server.close();
  });

  test('count commands and requests to the library apart', async () => {
    const { clock, server } = await faked();
    const statuses = async (path: string, count: number): Promise<number[]> => {
      const all = Array.from({ length: count }, () =>
        server.ask('POST', path, { 'Content-Type': 'application/json' }, '{}'),
      );
      return (await Promise.all(all)).map(({ status }) => status);
    };
    const refused = async (path: string, count: number): Promise<number> =>
      (await statuses(path, count)).filter((status) => status === 429).length;
    expect([await refused('/library', 42), await refused('/command', 42)]).toEqual([2, 2]);
    clock.advance(1000);
    expect([await refused('/library', 21), await refused('/command', 21)]).toEqual([1, 1]);
    await server.close();
  });

  test('allow headers of up to eight KiB', async () => {
    const { server } = await faked();
    const asked = async (length: number) => {
      const socket = await server.raw();
      socket.write(`GET /healthz HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nX: ${'x'.repeat(length)}\r\n\r\n`);
      const [said] = (await once(socket, 'data')) as [Buffer];
      socket.destroy();
      return said.toString().split('\r\n', 1)[0];
    };
    expect([await asked(8000), await asked(8300)]).toEqual([
      'HTTP/1.1 200 OK',
      'HTTP/1.1 431 Request Header Fields Too Large',
    ]);
    await server.close();
  });
});

describe('[server] a broken request', () => {
  test('is answered with that, and its connection is closed', async () => {
    const { server } = await faked();
    const socket = await server.raw();
    socket.write('hello\r\n\r\n');
    const said: string[] = [];
    socket.on('data', (data: Buffer) => said.push(data.toString()));
    await once(socket, 'close');
    expect(said.join('')).toBe('HTTP/1.1 400 Bad Request\r\nConnection: close\r\n\r\n');
    await server.close();
  });
});

describe('[server] a client that goes on', () => {
  /** A connection whose own end stays open, whatever the host does with its end. */
  async function stubborn(server: DeckServerUnderTest): Promise<Socket> {
    const socket = connect({ port: server.port, host: '127.0.0.1', allowHalfOpen: true });
    socket.on('error', () => undefined);
    socket.resume();
    await once(socket, 'connect');
    return socket;
  }

  test.each([
    ['what was no request', () => 'hello\r\n\r\n'],
    ['a socket that was refused', (port: number) => upgradeTo('/elsewhere', port)],
  ])('after %s finds the connection closed for good', async (_, words) => {
    const { server } = await faked();
    const socket = await stubborn(server);
    socket.write(words(server.port));
    const closed = new Promise((resolve) => socket.on('close', resolve));
    await once(socket, 'end');
    // Nobody is there any more to take this, and the system says so.
    const talking = setInterval(() => socket.write('more'), 5);
    await closed;
    clearInterval(talking);
    await server.close();
  });

  test('without asking anything is hung up on when there are 129 of them, the oldest first', async () => {
    const { server } = await faked();
    const first = await stubborn(server);
    const closed = once(first, 'end');
    const others = await Promise.all(Array.from({ length: 127 }, () => server.raw()));
    expect((await server.ask('GET', '/healthz')).status).toBe(200);
    others.push(await server.raw());
    await closed;
    for (const each of [first, ...others]) each.destroy();
    await server.close();
  });
});

function upgradeTo(path: string, port: number): string {
  return [
    `GET ${path} HTTP/1.1`,
    `Host: 127.0.0.1:${port}`,
    `Origin: http://127.0.0.1:${port}`,
    'Upgrade: websocket',
    'Connection: Upgrade',
    'Sec-WebSocket-Version: 13',
    'Sec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==',
    '\r\n',
  ].join('\r\n');
}

describe('[server] closing', () => {
  /** Whether a promise has come to an end by now. */
  function ended(promise: Promise<unknown>): () => Promise<boolean> {
    let over = false;
    void promise.then(() => (over = true));
    return async () => {
      await heard();
      return over;
    };
  }

  /** Asks for something and has not said all of it. */
  async function half(server: DeckServerUnderTest): Promise<Socket> {
    const socket = await server.raw();
    socket.write(`GET /healthz HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\n`);
    await heard();
    return socket;
  }

  test('waits a quarter of a second for busy connections, and then hangs up', async () => {
    const { clock, server } = await faked();
    const slow = await half(server);
    const isOver = ended(server.close());
    clock.advance(249);
    expect(await isOver()).toBe(false);
    const closed = once(slow, 'close');
    clock.advance(1);
    await closed;
    await expect.poll(isOver).toBe(true);
    expect(clock.pending).toBe(0);
  });

  test('does not wait for idle connections', async () => {
    const { clock, server } = await faked();
    const socket = await server.raw();
    socket.write(`GET /healthz HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\n\r\n`);
    await once(socket, 'data');
    await server.close();
    expect(clock.pending).toBe(0);
    socket.destroy();
  });

  test('hangs up on a screen that does not read after a quarter of a second', async () => {
    const { clock, server } = await faked();
    const deaf = await server.screen();
    deaf.socket.pause();
    const closed = server.close();
    clock.advance(250);
    await closed;
    // That a screen is gone is news for half a second.
    await expect
      .poll(() => {
        clock.advance(NEWS_EVERY);
        return clock.pending;
      })
      .toBe(0);
    deaf.socket.terminate();
  });

  test('lets no more screens in', async () => {
    const { clock, server } = await faked();
    const asking = await server.raw();
    asking.write(upgradeTo('/deck', server.port).slice(0, -2));
    await heard();
    const closed = server.close();
    asking.write('\r\n');
    const [said] = (await once(asking, 'data')) as [Buffer];
    expect(said.toString()).toBe('HTTP/1.1 503 Service Unavailable\r\nConnection: close\r\nContent-Length: 0\r\n\r\n');
    clock.advance(250);
    await closed;
  });
});
