/* A screen that does not take what waits for it. */

import { expect, test } from 'vitest';
import { outflow } from '../../../app/host/deck/outflow.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';

/** A line on which so many bytes wait from the first message on. */
function slowLine(bytes: number) {
  const clock = new FakeClock();
  const ends: string[] = [];
  const texts: string[] = [];
  let went = 0;
  let waiting = 0;
  let sent = (): void => undefined;
  const out = outflow(
    {
      waiting: () => waiting,
      send: (text, call) => {
        texts.push(text);
        waiting += bytes;
        sent = call;
      },
    },
    clock.timers,
    () => went++,
    () => ends.push('given up'),
  );
  const take = (taken: number): void => {
    waiting = Math.max(0, waiting - taken);
    sent();
  };
  return { clock, out, ends, texts, take, went: () => went };
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

test('[screen] one with more than 1 MiB waiting is given up at once, once, and sent no more', () => {
  const { clock, out, ends, texts } = slowLine(1024 * 1024);
  out.send('a');
  out.send('b');
  expect([ends, texts]).toEqual([[], ['a', 'b']]);
  out.send('c');
  out.send('d');
  expect([ends, texts, clock.pending]).toEqual([['given up'], ['a', 'b'], 0]);
});

test('[screen] one has room for the run with up to 64 KiB waiting', () => {
  const { out, take } = slowLine(64 * 1024 + 1);
  expect(out.hasRoom()).toBe(true);
  out.send('a');
  expect(out.hasRoom()).toBe(false);
  take(1);
  expect(out.hasRoom()).toBe(true);
});

test('[screen] what has gone is reported each time, until it is over; no timer waits where nothing does', () => {
  const { clock, out, take, went } = slowLine(10);
  out.send('a');
  take(4);
  expect([went(), clock.pending]).toEqual([1, 1]);
  take(6);
  expect([went(), clock.pending]).toEqual([2, 0]);
  out.end();
  take(0);
  expect(went()).toBe(2);
});

test('[screen] a quick one, on which nothing waits, needs no timer', () => {
  const { clock, out } = slowLine(0);
  out.send('a');
  expect(clock.pending).toBe(0);
});
