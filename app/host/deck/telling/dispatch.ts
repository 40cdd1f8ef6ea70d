/*
 * In which order and how often screens are told of the run: coaches first, then remotes, then walls; each at most ten
 * times a second, with the latest then. Walls are told a few at a time, so that two hundred of them hold up neither the
 * host's clock nor a coach's next command.
 */

import type { ScreenKind } from '../../../wire/messages.ts';
import type { Clock } from '../../time/clock.ts';
import type { Timer, Timers } from '../../time/timers.ts';

/** A screen, as far as it is told of the run. */
export interface Reader {
  /** Whether there is something for it that it can take now. */
  isBehind(): boolean;
  /** Tells it; gives whether that counts as one of its ten. */
  tell(): boolean;
}

interface Place {
  readonly reader: Reader;
  /** In ms of the host's clock: not before then. */
  notBefore: number;
}

const ORDER: readonly ScreenKind[] = ['desk', 'remote', 'wall'];

/** In ms. Two may come at once, as two quick commands do; with these that makes ten in any second. */
const PACE = 125;

/** Walls that are told in one go: half a millisecond's work. */
const AT_ONCE = 10;

export class Dispatch {
  private readonly places: Readonly<Record<ScreenKind, Set<Place>>> = {
    desk: new Set(),
    remote: new Set(),
    wall: new Set(),
  };
  private readonly clock: Pick<Clock, 'now'>;
  readonly timers: Timers;
  private timer: Timer | null = null;
  private telling = false;
  private again = false;

  constructor(clock: Pick<Clock, 'now'>, timers: Timers) {
    this.clock = clock;
    this.timers = timers;
  }

  /** From now on it is told, at once of what there is; the returned function ends that. */
  join(kind: ScreenKind, reader: Reader): () => void {
    const place = { reader, notBefore: -Infinity };
    this.places[kind].add(place);
    this.news();
    return () => this.places[kind].delete(place);
  }

  /** To be called when there is something new, or when a screen can take what it could not. */
  news(): void {
    this.again = true;
    // A screen that has taken a message at once calls from within.
    if (this.telling) return;
    this.telling = true;
    while (this.again) {
      this.again = false;
      this.tellAll(this.clock.now());
    }
    this.telling = false;
  }

  private tellAll(now: number): void {
    if (this.timer) this.timers.clear(this.timer);
    const next = Math.min(...ORDER.map((kind) => this.tellKind(kind, now)));
    this.timer = next < Infinity ? this.timers.set(() => this.news(), Math.max(0, next - now)) : null;
  }

  /** When there is more to tell them, by the host's clock. */
  private tellKind(kind: ScreenKind, now: number): number {
    const places = this.places[kind];
    let left = kind === 'wall' ? AT_ONCE : Infinity;
    let next = Infinity;
    for (const place of [...places]) {
      if (!places.has(place) || !place.reader.isBehind()) continue;
      if (place.notBefore > now) next = Math.min(next, place.notBefore);
      else if (left === 0) return now;
      else {
        left--;
        this.tell(places, place, now);
      }
    }
    return next;
  }

  private tell(places: Set<Place>, place: Place, now: number): void {
    // The next time all others have their turn before it.
    places.delete(place);
    places.add(place);
    if (place.reader.tell()) place.notBefore = Math.max(place.notBefore, now - PACE) + PACE;
  }
}
