/*
 * The timers the host sets, as a port, so that tests decide when one fires and how late.
 */

/** What `set` gives and `clear` takes; means nothing to anyone else. */
export type Timer = object;

export interface Timers {
  /** Calls back once, after at least about so many ms (a timer may be 1 ms early, and any amount late). */
  set(callback: () => void, delay: number): Timer;
  clear(timer: Timer): void;
}

/** Node's own. */
export const systemTimers: Timers = {
  set: (callback, delay) => setTimeout(callback, delay),
  clear: (timer) => clearTimeout(timer as NodeJS.Timeout),
};
