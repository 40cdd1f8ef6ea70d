/* The body of a request, as far as it is read: whole, too large, or broken off. */

import { EventEmitter } from 'node:events';
import type { IncomingMessage } from 'node:http';
import { expect, test } from 'vitest';
import { readBody } from '../../../../app/host/web/limits/request-body.ts';

const MIB = 1024 * 1024;

function asked(limit: number) {
  let pauses = 0;
  const request = Object.assign(new EventEmitter(), { pause: () => pauses++ });
  let outcome: unknown = null;
  const body = readBody(request as unknown as IncomingMessage, limit);
  void body.then((read) => (outcome = read));
  const now = async () => {
    await Promise.resolve();
    return outcome;
  };
  return { request, body, now, pauses: () => pauses };
}

test('[server] a body of exactly the limit is read whole, in however many pieces it comes', async () => {
  const { request, body, pauses } = asked(6);
  request.emit('data', Buffer.from('abc'));
  request.emit('data', Buffer.from('def'));
  request.emit('end');
  request.emit('close');
  expect(await body).toEqual({ ok: true, bytes: Buffer.from('abcdef') });
  expect(pauses()).toBe(0);
});

test('[server] a longer body is not kept, and is answered when it has been sent', async () => {
  const { request, body, now } = asked(5);
  request.emit('data', Buffer.from('abc'));
  request.emit('data', Buffer.from('def'));
  expect(await now()).toBeNull();
  request.emit('end');
  expect(await body).toEqual({ ok: false, why: 'too large' });
});

test('[server] a body eight MiB beyond the limit is answered at once and read no further', async () => {
  const { request, body, now, pauses } = asked(5);
  request.emit('data', Buffer.alloc(8 * MIB + 5));
  expect([await now(), pauses()]).toEqual([null, 0]);
  request.emit('data', Buffer.alloc(1));
  expect(await body).toEqual({ ok: false, why: 'too large' });
  expect(pauses()).toBe(1);
});

test.each(['error', 'close'])('[server] one that ends with "%s" before its end is broken off', async (how) => {
  const { request, body } = asked(5);
  request.emit('data', Buffer.from('abc'));
  request.emit(how, new Error('gone'));
  expect(await body).toEqual({ ok: false, why: 'broken off' });
});
