/*
 * The digits that walls show for the coach to type in. No two show the same, and each shows new ones every two minutes.
 * One wall of an address shows digits at a time: after two minutes the next one that asks takes its turn.
 */

import { JOINING_TIME } from '../../../wire/sharing/joining.ts';
import type { Timer, Timers } from '../../time/timers.ts';
import type { Chance } from '../chance.ts';

/** A wall that waits to be let in. */
export interface Showing {
  /** Its address: one wall of each. */
  readonly from: string;
  /** It is to show these, which are valid for `JOINING_TIME`. */
  show(digits: string): void;
  letIn(): void;
  /** Another one has its place. */
  sendAway(why: string): void;
}

/** So many show digits at once. With more, the one that has waited longest goes. */
const MOST_SHOWING = 64;

const SAME_ADDRESS = 'Another screen at this address shows its digits: let that one in first.';
const TOO_MANY = 'Too many screens wait to be let in: reload this page to wait again.';

export class WallDigits {
  private readonly timers: Timers;
  private readonly chance: Chance;
  private readonly changed: () => void;
  /** By their digits; the one that came first is the first. */
  private readonly showing = new Map<Showing, { digits: string; timer: Timer; hasHadItsTurn: boolean }>();

  /** `changed`: one more shows digits, or one less. */
  constructor(timers: Timers, chance: Chance, changed: () => void) {
    this.timers = timers;
    this.chance = chance;
    this.changed = changed;
  }

  count(): number {
    return this.showing.size;
  }

  /** The returned function ends it. */
  add(wall: Showing): () => void {
    const earlier = this.find((each) => each.from === wall.from);
    if (earlier && !this.showing.get(earlier)!.hasHadItsTurn) {
      wall.sendAway(SAME_ADDRESS);
      return () => undefined;
    }
    if (earlier) this.sendAway(earlier, SAME_ADDRESS);
    const [oldest] = this.showing.keys();
    if (this.showing.size >= MOST_SHOWING) this.sendAway(oldest!, TOO_MANY);
    this.renew(wall, false);
    this.changed();
    return () => this.leave(wall);
  }

  /** Lets the wall in that shows these digits; false if none does. */
  letIn(digits: string): boolean {
    const wall = this.find((_, shown) => shown === digits);
    if (!wall) return false;
    this.leave(wall);
    wall.letIn();
    return true;
  }

  private find(isMeant: (wall: Showing, digits: string) => boolean): Showing | undefined {
    return [...this.showing].find(([wall, { digits }]) => isMeant(wall, digits))?.[0];
  }

  private renew(wall: Showing, hasHadItsTurn: boolean): void {
    const digits = this.freeDigits();
    const timer = this.timers.set(() => this.renew(wall, true), JOINING_TIME);
    this.showing.set(wall, { digits, timer, hasHadItsTurn });
    wall.show(digits);
  }

  private freeDigits(): string {
    for (;;) {
      const digits = String(this.chance.below(10_000)).padStart(4, '0');
      if (!this.find((_, shown) => shown === digits)) return digits;
    }
  }

  private sendAway(wall: Showing, why: string): void {
    this.leave(wall);
    wall.sendAway(why);
  }

  private leave(wall: Showing): void {
    const shown = this.showing.get(wall);
    if (!shown) return;
    this.timers.clear(shown.timer);
    this.showing.delete(wall);
    this.changed();
  }
}
