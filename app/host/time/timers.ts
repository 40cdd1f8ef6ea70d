/*
 * The host's timers as a port, so that tests can decide when a timer fires and how late.
 */

/** What `set` gives and `clear` takes; means nothing to anyone else. */
export type Timer = object;

export interface Timers {
  /** Calls back once, after about `delay` ms: at most 1 ms early, and late by any amount. */
  set(callback: () => void, delay: number): Timer;
  clear(timer: Timer): void;
}

/** The timers of Node. */
export const systemTimers: Timers = {
  set: (callback, delay) => setTimeout(callback, delay),
  clear: (timer) => clearTimeout(timer as NodeJS.Timeout),
};
