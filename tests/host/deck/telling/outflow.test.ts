/* What goes out to one screen: until it does not take what waits for it, and what it is told of the run. */

import { beforeEach, describe, expect, test } from 'vitest';
import { outflow, runReader } from '../../../../app/host/deck/telling/outflow.ts';
import type { RunStream } from '../../../../app/host/deck/telling/run-stream.ts';
import { FakeClock } from '../../../support/clock/fake-clock.ts';

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

describe('[snapshots] a screen is told of the run', () => {
  let n: number;
  let texts: string[];
  let sent: string[];
  /** So many messages fit before it has taken what waits. */
  let room: number;
  beforeEach(() => {
    n = 1;
    texts = ['A'];
    sent = [];
    room = Infinity;
  });

  function reader() {
    const stream = {
      place: () => ({ n, run: 'r', count: 0 }),
      textMessages: () => new Map(texts.map((text) => [text, `text ${text}`])),
      messageFrom: (from: { n: number } | null) => `${from?.n ?? 'nothing'} to ${n}`,
    } as unknown as RunStream;
    const send = (text: string): void => {
      sent.push(text);
      room--;
    };
    return runReader(stream, { send, hasRoom: () => room > 0, end: () => undefined });
  }

  test('with each text once, then the whole, then what is new', () => {
    const screen = reader();
    expect([screen.isBehind(), screen.tell(), screen.isBehind()]).toEqual([true, true, false]);
    n = 2;
    texts = ['A', 'B'];
    expect([screen.isBehind(), screen.tell(), screen.isBehind()]).toEqual([true, true, false]);
    expect(sent).toEqual(['text A', 'nothing to 1', 'text B', '1 to 2']);
  });

  test('from the beginning once it has missed something, but for the texts', () => {
    const screen = reader();
    screen.tell();
    screen.startAnew();
    expect([screen.isBehind(), screen.tell()]).toEqual([true, true]);
    expect(sent).toEqual(['text A', 'nothing to 1', 'nothing to 1']);
  });

  test('only as far as there is room, and of the rest later', () => {
    texts = ['A', 'B'];
    const screen = reader();
    for (let message = 0; message < 3; message++) {
      room = 1;
      screen.tell();
    }
    expect(sent).toEqual(['text A', 'text B', 'nothing to 1']);
  });

  test('and a text that took all the room is not counted as told', () => {
    const screen = reader();
    for (const more of [[], ['B']]) {
      texts = ['A', ...more];
      room = 1;
      expect(reader().tell()).toBe(false);
    }
    room = 0;
    expect([screen.isBehind(), screen.tell()]).toEqual([false, false]);
  });
});
