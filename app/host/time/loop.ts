/*
 * Wakes up when the next thing is due and hands over the time that has passed, in spans without gaps between them. So
 * a late wake-up is late but loses nothing and is never wrong. A timer is only a hint; the clock decides.
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
  /** Gets every span once, in order; never an empty one. */
  take(span: Span): void;
}

export interface Loop {
  /** To be called when what is due has changed. */
  wake(): void;
  stop(): void;
}

/** The longest that the loop sleeps, in ms. It is also how soon the loop notices that the machine slept. */
export const LONGEST_SLEEP = 250;

/** Starts the loop. With nothing due it wakes up every LONGEST_SLEEP, counted from the time of this call. */
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
    // A span does not include its end, so a time that is due is handed over once it has passed.
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

/** Timers take whole ms and may fire 1 ms early: the least delay that ends after the target, LONGEST_SLEEP at most. */
function delayTo(target: number, now: number): number {
  return Math.min(LONGEST_SLEEP, Math.max(1, Math.floor(target - now) + 1));
}
