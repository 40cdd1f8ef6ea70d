/* The host on a real port: what it serves, and to whom. */

import { connect, createServer } from 'node:net';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { networkInterfaces, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { systemClock } from '../../../app/host/time/clock.ts';
import { readPages, type Pages } from '../../../app/host/web/pages.ts';
import { PortTaken, startServer } from '../../../app/host/web/server.ts';
import { systemTimers } from '../../../app/host/time/timers.ts';
import { DeckServerUnderTest } from '../../support/host/deck/deck-server.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';

const TEXT = 'Squad\n8 x 50 @ 1:00\n';
const PLAIN = { 'Content-Type': 'text/plain; charset=utf-8' };
const JSON_TYPE = { 'Content-Type': 'application/json' };

let folder: string;
let pages: Pages;
let server: DeckServerUnderTest;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'lanecall-pages-'));
  for (const page of ['desk', 'wall', 'remote']) {
    mkdirSync(join(folder, page));
    writeFileSync(join(folder, page, 'index.html'), `<title>${page}</title>`);
  }
  mkdirSync(join(folder, 'assets'));
  writeFileSync(join(folder, 'assets', 'desk-a1b2c3.js'), 'export {};');
  writeFileSync(join(folder, 'secret.txt'), 'secret');
  pages = readPages(folder);
});
afterAll(() => rmSync(folder, { recursive: true }));
beforeEach(async () => {
  server = await DeckServerUnderTest.start(pages);
});
afterEach(() => server.close());

describe('[server] pages', () => {
  test.each([
    ['/', 'desk'],
    ['/display', 'wall'],
    ['/remote', 'remote'],
    ['/display?lanes=1-4', 'wall'],
  ])('%s is the %s page, never cached', async (path, title) => {
    const { status, headers, body } = await server.ask('GET', path);
    expect({ status, body }).toEqual({ status: 200, body: `<title>${title}</title>` });
    expect(headers['cache-control']).toBe('no-store');
    expect(headers['content-type']).toBe('text/html; charset=utf-8');
  });

  test('a file with a hash in its name may be cached for ever', async () => {
    const { headers, body } = await server.ask('GET', '/assets/desk-a1b2c3.js');
    expect(body).toBe('export {};');
    expect(headers['cache-control']).toContain('immutable');
    expect(headers['content-type']).toContain('text/javascript');
  });

  test.each(['/', '/assets/desk-a1b2c3.js'])('%s comes with headers that let nothing else in', async (path) => {
    const { headers } = await server.ask('GET', path);
    const policy = headers['content-security-policy'];
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self';");
    expect(policy).toContain(`connect-src 'self' ws://127.0.0.1:${server.port};`);
    expect(policy).not.toContain('unsafe');
    expect(headers).toMatchObject({
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'no-referrer',
      'cross-origin-resource-policy': 'same-origin',
      'cross-origin-opener-policy': 'same-origin',
    });
    expect(headers['access-control-allow-origin']).toBeUndefined();
  });

  test.each([
    '/secret.txt',
    '/../secret.txt',
    '/assets/../secret.txt',
    '/assets/%2e%2e/secret.txt',
    '/assets/..%2fsecret.txt',
    '//secret.txt',
    '/desk/index.html',
    '/assets/',
    '/assets',
    '/display/',
    '/%00',
    '/__proto__',
    '/constructor',
  ])('%s is not found', async (path) => {
    const { status, body } = await server.ask('GET', path);
    expect(status).toBe(404);
    expect(body).not.toContain('secret');
  });

  test('the host says that it is healthy', async () => {
    const { status, body } = await server.ask('GET', '/healthz', { Origin: undefined });
    expect({ status, body: JSON.parse(body) as unknown }).toEqual({ status: 200, body: { ok: true } });
  });
});

describe('[server] who is let in', () => {
  test.each([
    'evil.example',
    'evil.example:PORT',
    '127.0.0.1:1',
    '127.0.0.1',
    'localhost',
    '0.0.0.0:PORT',
    '127.0.0.2:PORT',
  ])('not under the host name "%s": 403', async (host) => {
    const { status } = await server.ask('GET', '/healthz', { Host: host.replace('PORT', String(server.port)) });
    expect(status).toBe(403);
  });

  test.each(['localhost:PORT', '127.0.0.1:PORT', '[::1]:PORT', 'LOCALHOST:PORT'])(
    'asked for as "%s": 200',
    async (host) => {
      const { status } = await server.ask('GET', '/healthz', { Host: host.replace('PORT', String(server.port)) });
      expect(status).toBe(200);
    },
  );

  test('not with two Host headers', async () => {
    const socket = await server.raw();
    const own = `Host: 127.0.0.1:${server.port}\r\n`;
    socket.write(`GET /healthz HTTP/1.1\r\n${own}Host: evil.example\r\nConnection: close\r\n\r\n`);
    const [first] = (await once(socket, 'data')) as [Buffer];
    expect(first.toString()).toMatch(/^HTTP\/1\.1 40[03] /);
    socket.destroy();
  });

  test.each([
    [undefined],
    ['null'],
    ['http://evil.example'],
    ['https://127.0.0.1:PORT'],
    ['http://127.0.0.1'],
    ['http://localhost:PORT'],
    ['http://127.0.0.1:PORT.evil.example'],
  ])('not for changes from Origin %s: 403, and nothing has changed', async (origin) => {
    const headers = { ...PLAIN, Origin: origin?.replace('PORT', String(server.port)) };
    expect((await server.ask('PUT', '/session', headers, TEXT)).status).toBe(403);
    const command = JSON.stringify({ say: 'command', id: 'a', command: { do: 'start' } });
    expect((await server.ask('POST', '/command', { ...headers, ...JSON_TYPE }, command)).status).toBe(403);
    expect(server.host.snapshot().run).toBeNull();
  });

  test('a page loaded as localhost may change things', async () => {
    const name = `localhost:${server.port}`;
    const { status } = await server.ask('PUT', '/session', { ...PLAIN, Host: name, Origin: `http://${name}` }, TEXT);
    expect(status).toBe(200);
  });

  test('only this machine can connect', async () => {
    const others = new Set<string>();
    for (const list of Object.values(networkInterfaces())) {
      for (const { address, internal, family } of list ?? []) if (!internal && family === 'IPv4') others.add(address);
    }
    for (const address of others) {
      const socket = connect(server.port, address);
      const outcome = await new Promise((resolve) => {
        socket.on('connect', () => resolve('connected'));
        socket.on('error', () => resolve('refused'));
      });
      socket.destroy();
      expect(outcome).toBe('refused');
    }
  });
});

describe('[server] opening a session', () => {
  test('as text', async () => {
    const { status, body } = await server.ask('PUT', '/session', PLAIN, TEXT);
    expect(status).toBe(200);
    expect(JSON.parse(body)).toEqual({ ok: true, run: server.host.snapshot().run!.id });
  });

  test('as JSON with its lanes and the phase of the clock on the wall', async () => {
    const session = { text: TEXT, lanesText: 'lane 4\nlane 5\n', clockPhase: 1234 };
    expect((await server.ask('PUT', '/session', JSON_TYPE, JSON.stringify(session))).status).toBe(200);
    expect(server.host.current()!.state).toMatchObject({ clockPhase: 1234, lanes: [{ number: 4 }, { number: 5 }] });
  });

  test('faults: 400 with all of them and the text they are in', async () => {
    const { status, body } = await server.ask('PUT', '/session', PLAIN, '4 x 50 @ 1.30\n3 x 50 @ 130\n');
    expect(status).toBe(400);
    const { errors, in: where } = JSON.parse(body) as { errors: object[]; in: string };
    expect(where).toBe('session');
    expect(errors).toMatchObject([{ line: 1 }, { line: 2 }]);
    const lanes = await server.ask('PUT', '/session', JSON_TYPE, JSON.stringify({ text: TEXT, lanesText: '50 free' }));
    expect(JSON.parse(lanes.body)).toMatchObject({ in: 'lanes', errors: [{ line: 1 }] });
  });

  test('bytes that are not UTF-8: a fault with its place', async () => {
    const { status, body } = await server.ask('PUT', '/session', PLAIN, Buffer.from([0x61, 0x0a, 0xff]));
    expect(status).toBe(400);
    expect(JSON.parse(body)).toMatchObject({ errors: [{ line: 2, column: 1 }] });
  });

  test('while a run is going: 409 with a sentence, unless that is asked for', async () => {
    await server.ask('PUT', '/session', PLAIN, TEXT);
    await server.host.command('a', { do: 'start' });
    const id = server.host.snapshot().run!.id;
    const refused = await server.ask('PUT', '/session', PLAIN, TEXT);
    expect(refused.status).toBe(409);
    expect(JSON.parse(refused.body)).toMatchObject({ ok: false, why: expect.stringMatching(/\.$/) });
    expect(server.host.snapshot().run!.id).toBe(id);
    expect((await server.ask('PUT', '/session', JSON_TYPE, JSON.stringify({ text: TEXT, replace: true }))).status).toBe(
      200,
    );
    await server.host.command('b', { do: 'start' });
    expect((await server.ask('PUT', '/session?replace=true', PLAIN, TEXT)).status).toBe(200);
  });

  test.each([
    ['another type', { 'Content-Type': 'text/html' }, TEXT, 415],
    ['no type', { 'Content-Type': undefined }, TEXT, 415],
    ['no JSON', JSON_TYPE, '{', 400],
    ['JSON without a text', JSON_TYPE, '{"lanesText":null}', 400],
    ['JSON with something more', JSON_TYPE, '{"text":"50 @ 1:00","more":1}', 400],
    ['a text of 256 KiB and a byte', PLAIN, 'x'.repeat(256 * 1024 + 1), 413],
    ['the same in JSON', JSON_TYPE, JSON.stringify({ text: 'é'.repeat(128 * 1024) + 'x' }), 413],
    ['lanes as long', JSON_TYPE, JSON.stringify({ text: TEXT, lanesText: 'x'.repeat(256 * 1024 + 1) }), 413],
    ['a body without an end in sight', JSON_TYPE, 'x'.repeat(9 * 1024 * 1024), 413],
  ])('as %s: refused', async (_, headers, body, expected) => {
    const { status, body: answer } = await server.ask('PUT', '/session', headers, body);
    expect(status).toBe(expected);
    expect(JSON.parse(answer)).toBeTypeOf('object');
    expect(server.host.snapshot().run).toBeNull();
  });

  test('a text of 256 KiB is accepted', async () => {
    const text = `${TEXT}${`# ${'x'.repeat(397)}\n`.repeat(655)}`;
    expect(text.length).toBeGreaterThan(255 * 1024);
    expect((await server.ask('PUT', '/session', PLAIN, text)).status).toBe(200);
  });

  test.each([
    ['POST', '/session', 405],
    ['DELETE', '/session', 405],
    ['GET', '/session', 405],
    ['PUT', '/command', 405],
    ['PUT', '/', 405],
    ['OPTIONS', '/session', 405],
    ['PUT', '/elsewhere', 404],
  ])('%s %s: %i', async (method, path, expected) => {
    expect((await server.ask(method, path, PLAIN, ['PUT', 'POST'].includes(method) ? TEXT : undefined)).status).toBe(
      expected,
    );
  });
});

describe('[server] commands too long for a socket message', () => {
  test('are answered like messages, once for each id', async () => {
    const text = `${TEXT}Swim-down\n100 @ 2:00\n${`# ${'x'.repeat(397)}\n`.repeat(600)}`;
    await server.ask('PUT', '/session', PLAIN, TEXT);
    const body = JSON.stringify({ say: 'command', id: 'long', command: { do: 'rewrite', text } });
    expect(body.length).toBeGreaterThan(64 * 1024);
    for (let time = 0; time < 2; time++) {
      const { status, body: answer } = await server.ask('POST', '/command', JSON_TYPE, body);
      expect(status).toBe(200);
      expect(JSON.parse(answer)).toMatchObject({ say: 'answer', id: 'long', ok: true, why: null });
    }
    expect(server.host.snapshot().run!.commands).toHaveLength(1);
  });

  test.each(['', '{}', '{"say":"hello","version":1,"screen":"desk"}'])('%s is no command: 400', async (body) => {
    expect((await server.ask('POST', '/command', JSON_TYPE, body)).status).toBe(400);
  });
});

test('[server] a flood of changing requests is refused, pages are still served, and a second later all is well', async () => {
  const clock = new FakeClock();
  const own = await DeckServerUnderTest.start(pages, { clock, timers: clock.timers });
  const statuses = async (method: string, path: string, count: number): Promise<readonly number[]> => {
    const asked: number[] = [];
    for (let each = 0; each < count; each++) asked.push((await own.ask(method, path, JSON_TYPE, '{}')).status);
    return asked;
  };
  const refused = (taken: number, more: number): number[] => [
    ...new Array<number>(taken).fill(400),
    ...new Array<number>(more).fill(429),
  ];
  expect(await statuses('PUT', '/session', 25)).toEqual(refused(20, 5));
  // A command is not kept waiting by sessions.
  expect(await statuses('POST', '/command', 45)).toEqual(refused(40, 5));
  expect((await own.ask('GET', '/')).status).toBe(200);
  clock.advance(1000);
  expect(await statuses('PUT', '/session', 3)).toEqual(refused(2, 1));
  await own.close();
});

describe('[server] its port', () => {
  test('gives a sentence that names it if it is taken', async () => {
    const start = startServer(portsOf(server), server.port);
    await expect(start).rejects.toThrow(PortTaken);
    await expect(start).rejects.toThrow(`Port ${server.port} is in use`);
  });

  test('counts as taken if it is taken on ::1 alone, and nothing is left listening', async () => {
    const other = createServer();
    other.listen(0, '::1');
    const listening = await Promise.race([
      once(other, 'listening').then(() => true),
      once(other, 'error').then(() => false),
    ]);
    if (!listening) return; // A machine without IPv6 has no such trouble.
    const { port } = other.address() as { port: number };
    const start = startServer(portsOf(server), port);
    await expect(start).rejects.toThrow(`Port ${port} is in use`);
    const free = createServer();
    free.listen(port, '127.0.0.1');
    await once(free, 'listening');
    free.close();
    other.close();
  });
});

/** Of a server that is there, for another one. */
function portsOf({ host, library, squads, records }: DeckServerUnderTest): Parameters<typeof startServer>[0] {
  return { host, library, squads, records, clock: systemClock(), timers: systemTimers, pages };
}
