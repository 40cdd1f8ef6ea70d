/*
 * Touches, as coach's windows and remotes tap them. They are kept beside their run, and all of those screens are told
 * the times of the run that is open.
 */

import type { HandTimes } from '../../core/record/afterwards.ts';
import { TIMES_TOLD, type FromHost, type FromScreen } from '../../wire/messages.ts';
import type { Records, SentTouch } from './records.ts';

type Told = Extract<FromHost, { say: 'times' }>;

/** What keeps them. */
export type TouchKeeper = Pick<Records, 'touch'>;

export class TouchBook {
  private readonly openRun: () => string | null;
  private keeper: TouchKeeper | null = null;
  private told: Told | null = null;
  private looked: string | null = null;
  private readonly listeners = new Set<() => void>();

  /** openRun: the id of the run that is open; null for none. */
  constructor(openRun: () => string | null) {
    this.openRun = openRun;
  }

  /** To be called once: before that every touch is refused. */
  keepIn(keeper: TouchKeeper): void {
    this.keeper = keeper;
  }

  /** A sentence where it cannot be kept, else null. Never rejects. */
  take({ run, id, lane, at, watch }: Extract<FromScreen, { say: 'touch' }>): Promise<string | null> {
    return this.ask(run, { id, lane, at, watch });
  }

  /** The times of the run that is open; null while they are not known. */
  latest(): Told | null {
    const run = this.openRun();
    if (run === null) return null;
    if (this.looked !== run) {
      this.looked = run;
      void this.ask(run, null);
    }
    return this.told?.run === run ? this.told : null;
  }

  /** Calls back whenever there is something new; the returned function stops that. */
  onNews(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  private async ask(run: string, touch: SentTouch | null): Promise<string | null> {
    const answer = (await this.keeper?.touch(run, touch)) ?? { ok: false, why: NOT_KEPT };
    if (!answer.ok) return answer.why;
    if (run === this.openRun()) {
      this.told = { say: 'times', run, times: lastOf(answer.times) };
      for (const listener of this.listeners) listener();
    }
    return null;
  }
}

const NOT_KEPT = 'Times are not kept yet: try again.';

/** Those of the reps that left last. */
function lastOf(times: readonly HandTimes[]): HandTimes[] {
  return [...times].sort((a, b) => a.at - b.at).slice(-TIMES_TOLD);
}
