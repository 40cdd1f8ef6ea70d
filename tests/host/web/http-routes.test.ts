/* What the host answers to each request, whole: the status, the sentence, and what becomes of the connection. */

import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Page, Pages } from '../../../app/host/web/pages.ts';
import { DeckServerUnderTest } from '../../support/host/deck/deck-server.ts';

const DESK: Page = { body: Buffer.from('<p>'), type: 'text/html; charset=utf-8', lasting: false };
const JSON_TYPE = { 'Content-Type': 'application/json' };
const PLAIN = { 'Content-Type': 'text/plain' };
const TEXT = 'Squad\n8 x 50 @ 1:00\n';

let server: DeckServerUnderTest;

async function serve(pages: Pages = new Map([['/', DESK]])): Promise<void> {
  server = await DeckServerUnderTest.start(pages);
}

beforeEach(() => serve());
afterEach(() => server.close());

/** The status and the sentence. */
async function answer(method: string, path: string, headers: Record<string, string | undefined> = {}, body?: string) {
  const { status, body: said } = await server.ask(method, path, headers, body);
  return [status, (JSON.parse(said) as { why: string }).why] as const;
}

describe('[server] a refusal', () => {
  test.each([
    ['PUT', '/session', { ...PLAIN, Host: 'example' }, 403, 'Use the address of this machine, such as localhost.'],
    ['PUT', '/session', { ...PLAIN, Origin: 'null' }, 403, 'Only the pages of this Lanecall may do that.'],
    ['GET', '/elsewhere', {}, 404, 'There is no such page.'],
    ['PUT', '/elsewhere', PLAIN, 404, 'Nothing can be changed at this address.'],
    ['PUT', '/', PLAIN, 405, 'Nothing can be changed at this address.'],
    ['PUT', '/session-file', PLAIN, 405, 'Only POST here.'],
    ['PUT', '/session', {}, 415, 'Send a session as text/plain, or as application/json with its lanes.'],
    ['POST', '/library', PLAIN, 415, 'Send what is asked of the library as application/json.'],
  ] as const)('%s %s with %j: %i, %s', async (method, path, headers, status, why) => {
    expect(await answer(method, path, headers, method === 'GET' ? undefined : TEXT)).toEqual([status, why]);
  });

  test.each([
    ['GET', '/session', 'PUT'],
    ['HEAD', '/told', 'POST'],
    ['POST', '/session', 'PUT'],
    ['DELETE', '/command', 'POST'],
  ])('of %s %s names the method that is allowed there, %s', async (method, path, allowed) => {
    const { status, headers, body } = await server.ask(method, path);
    expect([status, headers.allow]).toEqual([405, allowed]);
    if (method !== 'HEAD') expect(JSON.parse(body)).toEqual({ ok: false, why: `Only ${allowed} here.` });
  });

  test('of too many requests asks to wait a second', async () => {
    const all = await Promise.all(Array.from({ length: 25 }, () => answer('PUT', '/session', JSON_TYPE, '{}')));
    expect(all).toContainEqual([429, 'Too many requests at once: wait a second and try again.']);
  });

  test('without a build says so, and the host is healthy all the same', async () => {
    await server.close();
    await serve(new Map());
    expect(await answer('GET', '/')).toEqual([404, 'The pages are not built: run npm run build.']);
    expect((await server.ask('GET', '/healthz')).body).toBe('{"ok":true}\n');
  });
});

describe('[server] after a refusal the connection is not used again, after an answer it is', () => {
  /** What becomes of a connection on which this is asked, by the host's own word. */
  async function connection(request: readonly string[], body = ''): Promise<string | undefined> {
    const socket = await server.raw();
    const own = [`Host: 127.0.0.1:${server.port}`, `Origin: ${server.origin}`, `Content-Length: ${body.length}`];
    socket.write([...request, ...own, '\r\n'].join('\r\n') + body);
    const heard = await new Promise<string>((resolve) => socket.on('data', (data) => resolve(data.toString())));
    socket.destroy();
    return /^Connection: (.*)\r$/im.exec(heard)?.[1];
  }

  test.each([
    ['a method that is not allowed', ['DELETE /session HTTP/1.1'], '', 'close'],
    ['a page looked for in the place of a question', ['GET /session HTTP/1.1'], '', 'close'],
    ['another type', ['PUT /session HTTP/1.1', 'Content-Type: text/html'], TEXT, 'close'],
    ['a session with a fault', ['PUT /session HTTP/1.1', 'Content-Type: text/plain'], '4 x 50 @ 1.30', 'close'],
    ['a session', ['PUT /session HTTP/1.1', 'Content-Type: text/plain'], TEXT, 'keep-alive'],
    ['a page', ['GET / HTTP/1.1'], '', 'keep-alive'],
  ])('%s', async (_, request, body, expected) => {
    expect(await connection(request, body)).toBe(expected);
  });
});

describe('[server] a request', () => {
  test.each(['text/plain', 'TEXT/Plain', 'text/plain ; charset=utf-8', 'text/plain;charset=utf-8'])(
    'of type "%s" is a session',
    async (type) => {
      expect((await server.ask('PUT', '/session', { 'Content-Type': type }, TEXT)).status).toBe(200);
    },
  );

  test('has its path before the question mark', async () => {
    await server.ask('PUT', '/session', PLAIN, TEXT);
    await server.host.command('a', { do: 'start' });
    expect((await server.ask('PUT', '/session?replace=no', PLAIN, TEXT)).status).toBe(409);
    expect((await server.ask('PUT', '/session?replace=true', PLAIN, TEXT)).status).toBe(200);
    expect((await server.ask('GET', '/?lanes=1-4')).status).toBe(200);
    expect((await server.ask('GET', '/healthz?')).status).toBe(200);
  });

  test('that needs no body is answered whatever is sent', async () => {
    expect((await server.ask('POST', '/told')).status).toBe(200);
    expect((await server.ask('POST', '/told', PLAIN, 'x'.repeat(10_000))).status).toBe(200);
  });

  test('with HEAD is answered like GET, without the page', async () => {
    const { status, headers, body } = await server.ask('HEAD', '/');
    expect([status, headers['content-length'], body]).toEqual([200, '3', '']);
  });
});

describe('[server] an error of the program', () => {
  test('is answered with a sentence, and the next request works', async () => {
    const broken = Object.assign(new Map([['/', DESK]]), {
      get: () => {
        throw new Error('no pages');
      },
    });
    await server.close();
    await serve(broken);
    expect(await answer('GET', '/')).toEqual([500, 'Lanecall had an error (Error: no pages): try again.']);
    expect((await server.ask('GET', '/healthz')).status).toBe(200);
  });

  test('after the answer has begun hangs up', async () => {
    const half = { includes: () => false, length: 3 } as unknown as Buffer;
    await server.close();
    await serve(new Map([['/', { ...DESK, body: half }]]));
    await expect(server.ask('GET', '/')).rejects.toThrow('socket hang up');
    expect((await server.ask('GET', '/healthz')).status).toBe(200);
  });
});

test('[server] a waiting session file goes to the first of our own pages that asks', async () => {
  await server.close();
  const file = { name: 'Tuesday.txt', text: TEXT, lanesText: null, why: 'A run is going.' };
  server = await DeckServerUnderTest.start(new Map(), undefined, file);
  expect((await server.ask('POST', '/session-file', { Origin: 'http://elsewhere' })).status).toBe(403);
  expect((await server.ask('GET', '/session-file')).status).toBe(405);
  expect(JSON.parse((await server.ask('POST', '/session-file')).body)).toEqual({ file });
  expect(JSON.parse((await server.ask('POST', '/session-file')).body)).toEqual({ file: null });
});
