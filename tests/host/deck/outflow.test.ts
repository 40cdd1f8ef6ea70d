/* A screen that does not take what waits for it. */

import { expect, test } from 'vitest';
import { outflow } from '../../../app/host/deck/outflow.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';

/** A line on which so many bytes wait from the first message on. */
function slowLine(bytes: number) {
  const clock = new FakeClock();
  const ends: string[] = [];
  let waiting = 0;
  let sent = (): void => undefined;
  const out = outflow(
    {
      waiting: () => waiting,
      send: (_, call) => {
        waiting += bytes;
        sent = call;
      },
    },
    clock.timers,
    () => undefined,
    () => ends.push('given up'),
  );
  const take = (taken: number): void => {
    waiting = Math.max(0, waiting - taken);
    sent();
  };
  return { clock, out, ends, take };
}

test.each([
  ['given up, if nothing of it is ever taken', 0, true],
  ['given up, if it is never all taken', 100, true],
  ['kept, if all of it was taken once', 200, false],
])('[screen] one that lets what waits for it stand for ten seconds is %s', (_, taken, isGivenUp) => {
  const { clock, out, ends, take } = slowLine(200);
  out.send('a');
  clock.advance(5000);
  take(taken);
  clock.advance(4999);
  expect(ends).toEqual([]);
  clock.advance(1);
  expect(ends).toEqual(isGivenUp ? ['given up'] : []);
});

test('[screen] the ten seconds begin anew with what is sent after all was taken', () => {
  const { clock, out, ends, take } = slowLine(200);
  out.send('a');
  clock.advance(9000);
  take(200);
  out.send('b');
  clock.advance(9999);
  expect(ends).toEqual([]);
  clock.advance(1);
  expect(ends).toEqual(['given up']);
});

test('[screen] one that is over is neither sent anything nor given up', () => {
  const { clock, out, ends } = slowLine(200);
  out.send('a');
  out.end();
  out.send('b');
  clock.advance(60_000);
  expect([ends, out.hasRoom(), clock.pending]).toEqual([[], false, 0]);
});
