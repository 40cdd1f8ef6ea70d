/*
 * How many screens are connected, which the coach's windows are told at most twice a second: a pool full of
 * televisions that come back together is news once.
 */

import type { FromHost, ScreenKind } from '../../../wire/messages.ts';
import { NewsPace } from '../../screens/news-pace.ts';
import type { Timers } from '../../time/timers.ts';

type Counts = Extract<FromHost, { say: 'presence' }>['screens'];

export class Presence {
  private readonly counts = { desk: 0, wall: 0, remote: 0 };
  private readonly listeners = new Set<() => void>();
  private readonly pace: NewsPace;
  private told: Counts = { ...this.counts };

  constructor(timers: Timers) {
    this.pace = new NewsPace(timers, () => {
      this.told = { ...this.counts };
      for (const listener of this.listeners) listener();
    });
  }

  /** Counts a screen as connected; the returned function undoes that, once. */
  join(kind: ScreenKind): () => void {
    this.counts[kind]++;
    this.pace.news();
    let there = true;
    return () => {
      if (!there) return;
      there = false;
      this.counts[kind]--;
      this.pace.news();
    };
  }

  /** How many there are at this moment. */
  now(): Counts {
    return { ...this.counts };
  }

  /** As last told. */
  latest(): Counts {
    return this.told;
  }

  /** Calls back whenever there is something new; the returned function stops that. */
  onNews(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }
}
