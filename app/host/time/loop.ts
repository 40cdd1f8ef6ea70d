/*
 * Wakes up towards the next thing due and hands over the time that has passed, in spans that follow
 * each other without a hole: a late wake-up is late, never wrong, and loses nothing. A timer is taken
 * for a hint and nothing more; what counts is the clock, from one origin.
 */

import type { Clock } from './clock.ts';
import type { Timer, Timers } from './timers.ts';

/** Host time in ms from `from`, included, to `to`, not included. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

export interface Consumer {
  /** When, at `from` or later, there is something to hand over; Infinity for nothing. */
  due(from: number): number;
  /** Is given every span once, in order, empty ones never. */
  take(span: Span): void;
}

export interface Loop {
  /** What is due has changed: looks again. */
  wake(): void;
  stop(): void;
}

/** The longest that the loop sleeps, in ms: so soon a machine that slept is noticed. */
export const LONGEST_SLEEP = 250;

/** Starts at the clock's now, its origin: with nothing due it wakes up at whole multiples of 250 ms from there. */
export function startLoop(clock: Clock, timers: Timers, consumers: readonly Consumer[]): Loop {
  const origin = clock.now();
  let last = origin;
  let timer: Timer | null = null;
  let stopped = false;

  const arm = (): void => {
    if (timer) timers.clear(timer);
    timer = stopped ? null : timers.set(wakeUp, delayTo(target(), clock.now()));
  };
  const target = (): number => {
    const beat = origin + (Math.floor((last - origin) / LONGEST_SLEEP) + 1) * LONGEST_SLEEP;
    return consumers.reduce((earliest, consumer) => Math.min(earliest, Math.max(last, consumer.due(last))), beat);
  };
  const wakeUp = (): void => {
    clock.check();
    const now = clock.now();
    // A span does not include its end, so what is due is handed over when it has passed, not when it has come.
    const span = now > target() ? { from: last, to: now } : null;
    if (span) last = now;
    try {
      if (span) for (const consumer of consumers) consumer.take(span);
    } finally {
      arm();
    }
  };

  arm();
  return {
    wake: arm,
    stop() {
      stopped = true;
      if (timer) timers.clear(timer);
      timer = null;
    },
  };
}

/** Timers take whole ms and may fire one early: the least that lies beyond the target, and never more than the longest sleep. */
function delayTo(target: number, now: number): number {
  return Math.min(LONGEST_SLEEP, Math.max(1, Math.floor(target - now) + 1));
}
