/* Who is let in, and how much of each: names, origins, room and rates, without a socket. */

import { EventEmitter } from 'node:events';
import type { IncomingMessage, ServerResponse } from 'node:http';
import type { Socket } from 'node:net';
import { describe, expect, test } from 'vitest';
import { Connections } from '../../../app/host/web/limits/connections.ts';
import { isFromOwnPage, ownHost } from '../../../app/host/web/doorkeeper.ts';
import { Doorstep } from '../../../app/host/web/limits/doorstep.ts';
import { contentPolicy, FRAMING, sendJson, sendPage, sendRefusal } from '../../../app/host/web/replies.ts';
import { withStyleNonce } from '../../../app/host/web/style-nonce.ts';
import { TokenBucket } from '../../../app/host/web/limits/token-bucket.ts';

/** A request with these headers, as Node gives them: names and values in turn, and by name. */
function request(...rawHeaders: readonly string[]): IncomingMessage {
  const headers: Record<string, string> = {};
  rawHeaders.forEach((name, index) => {
    if (index % 2 === 0) headers[name.toLowerCase()] ??= rawHeaders[index + 1]!;
  });
  return { rawHeaders, headers } as unknown as IncomingMessage;
}

describe('[web] the name a request asks for', () => {
  test.each([
    ['localhost:7525', 7525],
    ['127.0.0.1:7525', 7525],
    ['[::1]:7525', 7525],
    ['localhost', 80],
    ['[::1]', 80],
  ])('may be %s on port %i', (host, port) => {
    expect(ownHost(request('Host', host), port)).toBe(host);
  });

  test('may be written in any form', () => {
    expect(ownHost(request('HOST', 'LocalHost:7525'), 7525)).toBe('localhost:7525');
  });

  test.each([
    ['localhost:7526', 7525],
    ['localhost', 7525],
    ['localhost.example:7525', 7525],
    ['example:80', 80],
    ['', 80],
  ])('may not be %s on port %i', (host, port) => {
    expect(ownHost(request('Host', host), port)).toBeNull();
  });

  test('must be there, and only once, even among other headers’ values', () => {
    expect(ownHost(request('Accept', '*/*'), 7525)).toBeNull();
    expect(ownHost(request('Host', 'localhost:7525', 'host', 'example'), 7525)).toBeNull();
    expect(ownHost(request('X-Name', 'host', 'Host', 'localhost:7525'), 7525)).toBe('localhost:7525');
  });

  test('has to be that of the page that asks for a change', () => {
    const from = (origin: string): boolean => isFromOwnPage(request('Origin', origin), 'localhost:7525');
    expect([from('http://localhost:7525'), from('http://127.0.0.1:7525'), from('null')]).toEqual([true, false, false]);
    expect(isFromOwnPage(request(), 'localhost:7525')).toBe(false);
  });
});

describe('[web] connections', () => {
  test('give way when there are too many: the one that has waited longest is closed', () => {
    const step = new Doorstep(2);
    const sent: string[] = [];
    const first = step.enter(() => sent.push('first'));
    step.enter(() => sent.push('second'));
    expect(sent).toEqual([]);
    step.enter(() => sent.push('third'));
    expect(sent).toEqual(['first']);
    first.leave();
    step.enter(() => sent.push('fourth'));
    expect(sent).toEqual(['first', 'second']);
  });

  test('that have closed take no room', () => {
    const step = new Doorstep(1);
    const sent: string[] = [];
    step.enter(() => sent.push('first')).leave();
    step.enter(() => sent.push('second'));
    expect(sent).toEqual([]);
  });

  class Line extends EventEmitter {
    isGone = false;
    destroy(): void {
      this.isGone = true;
    }
  }

  /** So many connections come. */
  function come(connections: Connections, count: number): Line[] {
    return Array.from({ length: count }, () => {
      const line = new Line();
      connections.came(line as unknown as Socket);
      return line;
    });
  }

  const gone = (lines: readonly Line[]): number => lines.filter(({ isGone }) => isGone).length;

  test('may be 128 without a request; closed ones and screens do not count', () => {
    const connections = new Connections();
    const lines = come(connections, 128);
    lines[0]!.emit('close');
    connections.gone(lines[1]! as unknown as Socket);
    const more = come(connections, 2);
    expect(gone([...lines, ...more])).toBe(0);
    come(connections, 1);
    expect(lines.findIndex(({ isGone }) => isGone)).toBe(2);
  });

  test('that wait never push out one that is being answered; after the answer it waits again', () => {
    const connections = new Connections();
    const [asking] = come(connections, 1);
    const response = new EventEmitter();
    connections.asks(asking as unknown as Socket, response as unknown as ServerResponse);
    come(connections, 128);
    expect(asking!.isGone).toBe(false);
    response.emit('close');
    const waiting = come(connections, 127);
    expect([asking!.isGone, gone(waiting)]).toEqual([false, 0]);
    come(connections, 1);
    expect(asking!.isGone).toBe(true);
  });

  test('stay closed when an answer ends after its connection', () => {
    const connections = new Connections();
    const [asking] = come(connections, 1);
    const response = new EventEmitter();
    connections.asks(asking as unknown as Socket, response as unknown as ServerResponse);
    asking!.emit('close');
    response.emit('close');
    expect(gone(come(connections, 128))).toBe(0);
  });
});

describe('[web] messages a second', () => {
  test('are limited to so many at once and so many a second, and never save up more', () => {
    const bucket = new TokenBucket({ perSecond: 20, burst: 3 }, 1000);
    const take = (now: number): boolean => bucket.take(now);
    expect([take(1000), take(1000), take(1000), take(1000)]).toEqual([true, true, true, false]);
    expect([take(1049), take(1050), take(1050)]).toEqual([false, true, false]);
    expect([60_000, 60_000, 60_000, 60_000].map(take)).toEqual([true, true, true, false]);
  });
});

describe('[web] what a page may load', () => {
  test('is its own files, and the deck’s socket where its address can be written', () => {
    expect(contentPolicy('ws://localhost:7525')).toBe(
      "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' data:; " +
        "media-src 'self'; manifest-src 'self'; connect-src 'self' ws://localhost:7525; frame-ancestors 'none'; base-uri 'none'; " +
        "form-action 'none'",
    );
    expect(contentPolicy(null)).toContain("connect-src 'self';");
  });

  test("[screens] the coach's window may show wall screens in frames, and nothing else frames or is framed", () => {
    const frames = (path: string): string[] =>
      contentPolicy(null, null, FRAMING[path])
        .split('; ')
        .filter((each) => each.startsWith('frame-'));
    expect(frames('/')).toEqual(["frame-src 'self'", "frame-ancestors 'none'"]);
    expect(frames('/display')).toEqual(["frame-ancestors 'self'"]);
    for (const path of ['/remote', '/licences', '/assets/main.js', '__proto__x'])
      expect(frames(path), path).toEqual(["frame-ancestors 'none'"]);
  });

  test('and a style sheet that its script adds with the nonce of this page, and no other', () => {
    const { body, nonce } = withStyleNonce(Buffer.from('<meta nonce="word-for-style-sheets-"><p>'));
    expect(nonce).toMatch(/^[\w-]{22}$/);
    expect(body.toString()).toBe(`<meta nonce="${nonce}"><p>`);
    expect(contentPolicy(null, nonce)).toContain(`; style-src 'self' 'nonce-${nonce}'; font-src`);
    expect(withStyleNonce(Buffer.from('<meta nonce="word-for-style-sheets-">')).nonce).not.toBe(nonce);
    expect(withStyleNonce(Buffer.from('<p>'))).toEqual({ body: Buffer.from('<p>'), nonce: null });
  });
});

describe('[web] an answer', () => {
  function response(method = 'GET') {
    const said: { status: number; headers: Record<string, unknown>; body: string | undefined } = {
      status: 0,
      headers: {},
      body: undefined,
    };
    const fake = {
      req: { method },
      writeHead: (status: number, headers: Record<string, unknown>) => Object.assign(said, { status, headers }),
      end: (body?: Buffer) => (said.body = body?.toString()),
    };
    return { said, fake: fake as unknown as ServerResponse };
  }

  const SAFE = {
    'X-Content-Type-Options': 'nosniff',
    'Referrer-Policy': 'no-referrer',
    'Cross-Origin-Resource-Policy': 'same-origin',
  };

  test('in JSON is one line, not cached, with the security headers and its length', () => {
    const { said, fake } = response();
    sendJson(fake, 200, { ok: true });
    const type = { 'Content-Type': 'application/json; charset=utf-8', 'Cache-Control': 'no-store' };
    expect(said).toEqual({ status: 200, headers: { ...SAFE, ...type, 'Content-Length': 12 }, body: '{"ok":true}\n' });
  });

  test('that refuses says why and closes the connection', () => {
    const { said, fake } = response();
    sendRefusal(fake, 403, 'Not from here.');
    expect(said).toMatchObject({ status: 403, headers: { Connection: 'close' } });
    expect(said.body).toBe('{"ok":false,"why":"Not from here."}\n');
  });

  test.each([
    [true, 'public, max-age=31536000, immutable'],
    [false, 'no-store'],
  ])('with a page (%o) is cached so: %s', (lasting, kept) => {
    const { said, fake } = response();
    sendPage(fake, { body: Buffer.from('<p>'), type: 'text/html', lasting }, 'localhost:7525');
    const policy = contentPolicy('ws://localhost:7525');
    const own = { 'Content-Type': 'text/html', 'Content-Length': 3, 'Content-Security-Policy': policy };
    expect(said).toEqual({ status: 200, headers: { ...SAFE, ...own, 'Cache-Control': kept }, body: '<p>' });
  });

  test('names no socket under an IPv6 address, and has no body for a HEAD', () => {
    const { said, fake } = response('HEAD');
    sendPage(fake, { body: Buffer.from('<p>'), type: 'text/html', lasting: true }, '[::1]:7525');
    expect([said.headers['Content-Security-Policy'], said.body]).toEqual([contentPolicy(null), undefined]);
    const json = response('HEAD');
    sendJson(json.fake, 200, {});
    expect(json.said.body).toBeUndefined();
  });
});
