/*
 * The touches that this window has tapped during a run. They go to the host one after the other, beside the run's
 * commands and never in their way; what the host has not taken yet is sent again.
 */

import type { HandTimes } from '../../../app/core/record/afterwards.ts';
import { withTouch, type Touch } from '../../../app/core/record/touch.ts';
import type { AskRecords } from '../../link/records.ts';

export interface Touched {
  /** Those of other windows too, as far as they are known. */
  readonly times: readonly HandTimes[];
  /** Why the last could not be kept; null where it was. It is tried again. */
  readonly refused: string | null;
}

export interface TouchesPorts {
  readonly ask: AskRecords;
  readonly run: string;
  /** Calls once in that many ms. */
  readonly after: (call: () => void, ms: number) => void;
}

/** In ms. */
export const TRY_AGAIN_AFTER = 3000;

export class Touches {
  private readonly ports: TouchesPorts;
  private now: Touched = { times: [], refused: null };
  private unsent: readonly Touch[] = [];
  private isAsking = false;
  private readonly listeners = new Set<() => void>();

  constructor(ports: TouchesPorts) {
    this.ports = ports;
  }

  state = (): Touched => this.now;

  subscribe = (call: () => void): (() => void) => {
    this.listeners.add(call);
    return () => this.listeners.delete(call);
  };

  /** Looks what the host has, and sends what it does not have. */
  look(): void {
    void this.send();
  }

  add(touch: Touch): void {
    this.unsent = [...this.unsent, touch];
    this.tell({ times: withTouch(this.now.times, touch), refused: this.now.refused });
    void this.send();
  }

  private async send(): Promise<void> {
    if (this.isAsking) return;
    this.isAsking = true;
    const { ask, run, after } = this.ports;
    const touches = this.unsent;
    const answer = await ask<'touches'>({ do: 'touches', run, touches: [...touches] });
    this.isAsking = false;
    if (!answer.ok) {
      this.tell({ times: this.now.times, refused: answer.why });
      if (this.unsent.length > 0) after(() => void this.send(), TRY_AGAIN_AFTER);
      return;
    }
    this.unsent = this.unsent.slice(touches.length);
    this.tell({ times: this.unsent.reduce(withTouch, answer.times), refused: null });
    if (this.unsent.length > 0) await this.send();
  }

  private tell(now: Touched): void {
    this.now = now;
    for (const call of this.listeners) call();
  }
}
