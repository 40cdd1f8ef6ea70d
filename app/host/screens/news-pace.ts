/*
 * Lets news out at most twice a second: the first at once, and what comes after it together when its time has come.
 */

import type { Timer, Timers } from '../time/timers.ts';

/** In ms. */
export const NEWS_EVERY = 500;

export class NewsPace {
  private timer: Timer | null = null;
  private waiting = false;
  private readonly timers: Timers;
  private readonly tell: () => void;

  constructor(timers: Timers, tell: () => void) {
    this.timers = timers;
    this.tell = tell;
  }

  /** There is something new. */
  news(): void {
    this.waiting = true;
    if (!this.timer) this.letOut();
  }

  /** Nothing more is let out; nor is what waits. */
  end(): void {
    if (this.timer) this.timers.clear(this.timer);
    this.timer = null;
    this.waiting = false;
  }

  private letOut(): void {
    this.timer = null;
    if (!this.waiting) return;
    this.waiting = false;
    this.timer = this.timers.set(() => this.letOut(), NEWS_EVERY);
    this.tell();
  }
}
