/*
 * The touches that this page has tapped. They go to the host one after the other, beside the run's commands and never
 * in their way. What the host has not taken yet is kept by the browser, is there again when the page was closed, and is
 * sent again until it is taken: each has an id, so that it counts once.
 */

import type { HandTimes } from '../../../../app/core/record/afterwards.ts';
import { withTouch, type Touch } from '../../../../app/core/record/times/touch.ts';
import type { Link, SentTouch } from '../../../link/link.ts';
import { UNHEARD } from '../../../link/outbox.ts';
import type { TouchMemory } from './touch-memory.ts';

export interface Touched {
  /** Of the run that is open, by whichever screen, as far as they are known. */
  readonly times: readonly HandTimes[];
  /** Why the last could not be kept; null where it was. It is tried again. */
  readonly refused: string | null;
}

export interface TouchesPorts {
  readonly link: Pick<Link, 'store' | 'touch'>;
  readonly memory: TouchMemory;
  readonly newId: () => string;
  /** Calls once in that many ms. */
  readonly after: (call: () => void, ms: number) => void;
}

/** In ms. */
export const TRY_AGAIN_AFTER = 3000;

/** In ms: what has waited is sent no faster than a host takes messages of one screen. */
export const PACE = 100;

const WAITS = 'The program does not answer. Times are kept here and sent when it is back.';

export class Touches {
  private readonly ports: TouchesPorts;
  private now: Touched = { times: [], refused: null };
  private unsent: readonly SentTouch[];
  /** Reps that this page has timed: `run lane at`. */
  private readonly own = new Set<string>();
  private isSending = false;
  private readonly listeners = new Set<() => void>();

  constructor(ports: TouchesPorts) {
    this.ports = ports;
    this.unsent = ports.memory.all();
    for (const touch of this.unsent) this.note(touch);
    ports.link.store.subscribe(({ run, times }, before) => {
      if (run?.id !== before.run?.id) this.tell(null);
      else if (times !== before.times) this.tell(this.now.refused);
    });
    this.tell(null);
    void this.send();
  }

  state = (): Touched => this.now;

  subscribe = (call: () => void): (() => void) => {
    this.listeners.add(call);
    return () => this.listeners.delete(call);
  };

  /** Whether this page has a watch for a rep. Other screens may have theirs: of several the mean or the middle counts. */
  hasOwn(run: string, { lane, at }: Pick<Touch, 'lane' | 'at'>): boolean {
    return this.own.has(`${run} ${lane} ${at}`);
  }

  /** Whether the host has not taken yet what was tapped here for a rep. */
  isUnsent(run: string, { lane, at }: Pick<Touch, 'lane' | 'at'>): boolean {
    return this.unsent.some((touch) => touch.run === run && touch.lane === lane && touch.at === at);
  }

  add(run: string, touch: Touch): void {
    const sent = { ...touch, run, id: this.ports.newId() };
    this.ports.memory.keep(sent);
    this.note(sent);
    this.unsent = [...this.unsent, sent];
    this.tell(this.now.refused);
    void this.send();
  }

  private note({ run, lane, at, watch }: SentTouch): void {
    if (watch === null) this.own.delete(`${run} ${lane} ${at}`);
    else this.own.add(`${run} ${lane} ${at}`);
  }

  private async send(): Promise<void> {
    const [touch] = this.unsent;
    if (this.isSending || !touch) return;
    this.isSending = true;
    const { link, memory, after } = this.ports;
    const { ok, why } = await link.touch(touch);
    if (ok) memory.forget(touch.id);
    // What one run cannot take keeps no other run's touches back.
    const later = ok ? [] : this.unsent.filter(({ run }) => run === touch.run);
    this.unsent = [...this.unsent.filter((each) => each !== touch && !later.includes(each)), ...later];
    const isOfOpen = touch.run === link.store.getState().run?.id;
    if (ok || isOfOpen) this.tell(ok ? null : why === UNHEARD ? WAITS : why);
    after(
      () => {
        this.isSending = false;
        void this.send();
      },
      ok ? PACE : TRY_AGAIN_AFTER,
    );
  }

  private tell(refused: string | null): void {
    const { run, times } = this.ports.link.store.getState();
    const told = run && times?.run === run.id ? times.times : [];
    const waiting = this.unsent.filter((touch) => touch.run === run?.id);
    this.now = { times: waiting.reduce(withTouch, told), refused };
    for (const call of this.listeners) call();
  }
}
