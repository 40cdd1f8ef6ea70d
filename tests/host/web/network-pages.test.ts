/* Which pages the network gets, and in which frames each may stand. */

import { connect } from 'node:net';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { openDeck, type OpenDeck } from '../../../app/host/deck/deck-opening.ts';
import type { Sharing } from '../../../app/host/sharing/sharing.ts';
import { systemClock } from '../../../app/host/time/clock.ts';
import { systemTimers } from '../../../app/host/time/timers.ts';
import { openSharing } from '../../../app/host/web/share.ts';
import { freePort } from '../../support/host/free-port.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';

let deck: OpenDeck;
let sharing: Sharing;
let origin: string;

beforeEach(async () => {
  const clock = systemClock();
  const opening = await openDeck(freshDataFolder(), clock, systemTimers);
  if (!opening.ok) throw new Error('the data folder is not free');
  ({ deck } = opening);
  const network = await freePort();
  origin = `http://127.0.0.1:${network}`;
  const page = (text: string) => ({ type: 'text/html; charset=utf-8', body: Buffer.from(text), lasting: false });
  ({ sharing } = openSharing({
    deck,
    clock,
    timers: systemTimers,
    pages: new Map([
      ['/', page('the coach’s')],
      ['/display', page('the wall’s')],
      ['/remote', page('the remote’s')],
    ]),
    ports: () => ({ network, pages: null }),
    addresses: () => [{ address: '127.0.0.1', name: 'lo' }],
  }));
  expect(await sharing.share('127.0.0.1')).toBeNull();
});

afterEach(async () => {
  await sharing.end('The test is over.');
  await deck.close();
});

test.each([
  ['/', 'the wall’s', "frame-ancestors 'none'"],
  ['/display?preview=Deep%20end', 'the wall’s', "frame-ancestors 'self'"],
  ['/coach', 'the coach’s', "frame-src 'self'; frame-ancestors 'none'"],
  ['/remote', 'the remote’s', "frame-ancestors 'none'"],
])('[doors] at %s of the network stands the page of %s, with %s', async (path, text, framing) => {
  const response = await fetch(`${origin}${path}`);
  expect(await response.text()).toBe(text);
  const policy = response.headers.get('Content-Security-Policy')!;
  expect(policy).toContain(framing);
  expect(policy.includes('frame-src')).toBe(framing.includes('frame-src'));
});

test.each([
  ['GET', 'Transfer-Encoding: chunked'],
  ['HEAD', 'Transfer-Encoding: chunked'],
  ['GET', 'Content-Length: 4000000000'],
])('[doors] a %s with a body (%s) is answered and hung up on, and no more of it is read', async (method, length) => {
  const { port, host } = new URL(origin);
  const socket = connect(Number(port), '127.0.0.1');
  let [answer, sent] = ['', 0];
  socket.on('error', () => undefined).on('data', (data) => (answer += data.toString('latin1')));
  socket.write(`${method} / HTTP/1.1\r\nHost: ${host}\r\n${length}\r\n\r\n`);
  const closed = new Promise((resolve) => socket.on('close', resolve));
  await expect.poll(() => answer).toContain('HTTP/1.1 200 OK');
  const start = performance.now();
  const chunk = Buffer.from(`10000\r\n${'x'.repeat(65_536)}\r\n`);
  const pour = (): void => {
    if (socket.destroyed) return;
    sent += chunk.length;
    socket.write(chunk, () => setImmediate(pour));
  };
  pour();
  await closed;
  expect(answer).toContain('\r\nConnection: close\r\n');
  expect(sent).toBeLessThan(20_000_000);
  expect(performance.now() - start).toBeLessThan(1000);
});
