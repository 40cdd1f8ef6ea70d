/* One WebSocket as the doors know it, without a network. */

import { EventEmitter } from 'node:events';
import { expect, test } from 'vitest';
import type { WebSocket } from 'ws';
import { lineOf } from '../../../../app/host/web/limits/socket-line.ts';
import { FakeClock } from '../../../support/clock/fake-clock.ts';

function line() {
  const clock = new FakeClock();
  const did: string[] = [];
  const events = new EventEmitter();
  const socket = Object.assign(events, {
    close: (code: number, why: string) => did.push(`close ${code} ${why}`),
    terminate: () => did.push('terminate'),
  }) as unknown as WebSocket;
  const about = { host: 'deck', from: '10.0.0.2', socket: 'deck', listener: 'network' } as const;
  return { own: lineOf(socket, clock.timers, about), clock, did, events };
}

test('[sockets] the first goodbye is the one that is said, and an end that does not answer it is cut off after 80 ms', () => {
  const { own, clock, did, events } = line();
  own.close('Too much.');
  own.close('Again.');
  expect([did, events.listenerCount('close'), clock.pending]).toEqual([['close 1008 Too much.'], 1, 1]);
  clock.advance(79);
  expect(did).toHaveLength(1);
  clock.advance(1);
  expect(did).toEqual(['close 1008 Too much.', 'terminate']);
});

test('[sockets] an end that answers its goodbye is not cut off', () => {
  const { own, clock, did, events } = line();
  own.close('Too much.');
  events.emit('close');
  clock.advance(1000);
  expect(did).toEqual(['close 1008 Too much.']);
});

test('[sockets] a reason longer than a close frame holds, 123 bytes, is left out', () => {
  const reasons = ['x'.repeat(123), 'x'.repeat(124), `${'x'.repeat(122)}é`];
  const said = reasons.map((why) => {
    const { own, did } = line();
    own.close(why);
    return did[0]!.length;
  });
  expect(said).toEqual(['close 1008 '.length + 123, 'close 1008 '.length, 'close 1008 '.length]);
});
