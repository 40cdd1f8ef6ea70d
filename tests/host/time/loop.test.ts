/* The loop over a fake clock: what it hands over, when, and what stalls and early timers do to it. */

import { describe, expect, test } from 'vitest';
import { startLoop, type Consumer, type Span } from '../../../app/host/time/loop.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';

/** Notes every span, and everything of a list of times that a span holds with the time it was handed over. */
class Notebook implements Consumer {
  readonly spans: Span[] = [];
  readonly handed: { due: number; at: number }[] = [];
  private readonly clock: FakeClock;
  private readonly times: readonly number[];
  /** Index of the first time that the loop has not asked beyond; the loop asks with times that never decrease. */
  private first = 0;

  constructor(clock: FakeClock, times: readonly number[]) {
    this.clock = clock;
    this.times = times;
  }

  due(from: number): number {
    while (this.times[this.first]! < from) this.first++;
    return this.times[this.first] ?? Infinity;
  }

  take(span: Span): void {
    this.spans.push(span);
    const at = this.clock.now();
    for (let index = this.first; this.times[index]! < span.to; index++)
      this.handed.push({ due: this.times[index]!, at });
  }
}

function run(times: readonly number[], drive: (clock: FakeClock) => void, early = 0): Notebook {
  const clock = new FakeClock({ now: 1000 });
  clock.early = early;
  const notebook = new Notebook(clock, times);
  const loop = startLoop(clock, clock.timers, [notebook]);
  drive(clock);
  loop.stop();
  expect(clock.pending).toBe(0);
  return notebook;
}

function expectGapless({ spans }: Notebook): void {
  expect(spans[0]?.from).toBe(1000);
  spans.forEach((span, index) => {
    expect(span.to).toBeGreaterThan(span.from);
    if (index > 0) expect(span.from).toBe(spans[index - 1]!.to);
  });
}

describe('[loop] an undisturbed hour', () => {
  const times = Array.from({ length: 2000 }, (_, index) => 1000 + index * 1733.25);

  test.each([0, 1, 0.6])('everything due once, in order, never early, within 1 ms (timers %d ms early)', (early) => {
    const notebook = run(times, (clock) => clock.advance(3_600_000), early);
    expect(notebook.handed.map(({ due }) => due)).toEqual(times.filter((time) => time < 3_601_000 - 1));
    for (const { due, at } of notebook.handed) {
      expect(at).toBeGreaterThan(due);
      expect(at - due).toBeLessThanOrEqual(1.01);
    }
    expectGapless(notebook);
  });

  test('no two wake-ups are further apart than a quarter of a second and a timer’s own ms', () => {
    const { spans } = run([], (clock) => clock.advance(60_000));
    for (const { from, to } of spans) expect(to - from).toBeLessThanOrEqual(251);
    expect(spans.length).toBeGreaterThanOrEqual(239);
  });

  test('wake-ups count from one origin: after an hour the last is as close as the first', () => {
    const { spans } = run([], (clock) => clock.advance(3_600_000));
    const late = spans.map(({ to }) => (to - 1000) % 250);
    expect(Math.max(...late)).toBeLessThanOrEqual(1);
    expect(spans).toHaveLength(14_399);
  });
});

describe('[loop] stalls', () => {
  const times = Array.from({ length: 400 }, (_, index) => 1500 + index * 100);

  test('a late wake-up loses nothing and hands nothing over twice', () => {
    const notebook = run(times, (clock) => {
      for (const stall of [0, 30, 700, 5, 12_000, 99.5, 251]) {
        clock.stall(stall);
        clock.advance(2000);
      }
      clock.advance(20_000);
    });
    const end = notebook.spans[notebook.spans.length - 1]!.to;
    expect(notebook.handed.map(({ due }) => due)).toEqual(times.filter((time) => time < end));
    expect(notebook.handed.every(({ due, at }) => at >= due)).toBe(true);
    expectGapless(notebook);
  });

  test('after a stall it is on time again at the very next thing due', () => {
    const notebook = run(times, (clock) => {
      clock.advance(600);
      clock.stall(1234.5);
      clock.advance(1000);
    });
    const late = notebook.handed.filter(({ due, at }) => at - due > 1.01);
    expect(late.map(({ due }) => due)).toEqual(times.filter((time) => time >= 1600 && time < 2834.5));
  });
});

describe('[loop] its one timer', () => {
  /** A loop with one thing due, and how often it has set its timer. */
  function due(at: number) {
    const clock = new FakeClock({ now: 0 });
    let armed = 0;
    const timers = {
      ...clock.timers,
      set: (call: () => void, delay: number) => {
        armed++;
        return clock.timers.set(call, delay);
      },
    };
    const taken: number[] = [];
    const consumer: Consumer = {
      due: (from) => (at >= from ? at : Infinity),
      take: ({ from, to }) => {
        if (at >= from && at < to) taken.push(clock.now());
      },
    };
    return { clock, loop: startLoop(clock, timers, [consumer]), armed: () => armed, taken };
  }

  test('is one, however often the loop is woken', () => {
    const { clock, loop } = due(100);
    for (let time = 0; time < 10; time++) loop.wake();
    expect(clock.pending).toBe(1);
  });

  test('is set for after the thing due, not tried again and again until then', () => {
    const { clock, armed, taken } = due(100.5);
    clock.advance(200);
    expect([taken, armed()]).toEqual([[101], 2]);
  });

  test('is gone once the loop is stopped, also from within, and does not come back by waking it', () => {
    const { clock, loop } = due(100);
    loop.stop();
    loop.wake();
    expect(clock.pending).toBe(0);
    const other = new FakeClock({ now: 0 });
    const within = startLoop(other, other.timers, [{ due: () => 10, take: () => within.stop() }]);
    other.advance(1000);
    expect(other.pending).toBe(0);
  });
});

describe('[loop] what its consumers do', () => {
  test('something new that is due sooner is on time once the loop is woken', () => {
    const clock = new FakeClock({ now: 0 });
    let next = Infinity;
    const handed: number[] = [];
    const consumer = {
      due: (from: number) => (next >= from ? next : Infinity),
      take: ({ from, to }: Span) => {
        if (next >= from && next < to) handed.push(clock.now() - next);
      },
    };
    const loop = startLoop(clock, clock.timers, [consumer]);
    clock.advance(10);
    next = 60;
    loop.wake();
    clock.advance(100);
    loop.stop();
    expect(handed).toHaveLength(1);
    expect(handed[0]).toBeLessThanOrEqual(1.01);
  });

  test('one that fails does not stop the loop', () => {
    const clock = new FakeClock({ now: 0 });
    let failures = 0;
    const failing = {
      due: () => Infinity,
      take: () => {
        failures++;
        throw new Error('a fault of the consumer');
      },
    };
    const loop = startLoop(clock, clock.timers, [failing]);
    expect(() => clock.advance(251)).toThrow('a fault of the consumer');
    expect(() => clock.advance(251)).toThrow('a fault of the consumer');
    loop.stop();
    expect(failures).toBe(2);
  });

  test('a machine that slept is noticed at the first wake-up', () => {
    const clock = new FakeClock({ now: 0 });
    const slept: number[] = [];
    clock.onJump((jump) => slept.push(jump.slept));
    const loop = startLoop(clock, clock.timers, []);
    clock.advance(100);
    clock.sleep(90_000);
    clock.advance(1);
    loop.stop();
    expect(slept).toEqual([90_000]);
  });
});
