/*
 * The digits that walls show for the coach to type in. No two show the same, and each shows new ones every two minutes.
 * One wall of an address shows digits at a time, 64 in all, and nobody loses them within two minutes. Whoever comes
 * when all places are taken is told when to ask again, and is let in by then before others that come.
 */

import { JOINING_TIME } from '../../../wire/sharing/joining.ts';
import type { Clock } from '../../time/clock.ts';
import type { Timer, Timers } from '../../time/timers.ts';
import type { Chance } from '../chance.ts';

/** A wall that waits to be let in. */
export interface Showing {
  /** Its address: one wall of each. */
  readonly from: string;
  /** It is to show these, which are valid for `JOINING_TIME`. */
  show(digits: string): void;
  letIn(): void;
  /** Another one has its place. `wait`: in ms, when to ask again. */
  sendAway(why: string, wait: number): void;
}

export interface WallDigitsPorts {
  readonly clock: Pick<Clock, 'now'>;
  readonly timers: Timers;
  readonly chance: Chance;
}

interface Shown {
  digits: string;
  timer: Timer;
  /** Host time: until then nobody else gets its place. */
  readonly until: number;
}

/** So many show digits at once, and so many addresses are in line after them. */
const MOST_SHOWING = 64;
const MOST_IN_LINE = 256;

/** In ms: how late an address in line may ask again. */
const MAY_BE_LATE = 5000;

const SAME_ADDRESS = 'Another screen at this address shows its digits: let that one in first.';
const TOO_MANY = 'Too many screens wait to be let in.';

export class WallDigits {
  private readonly ports: WallDigitsPorts;
  private readonly changed: () => void;
  /** By their digits; the one that came first is the first. */
  private readonly showing = new Map<Showing, Shown>();
  /** Addresses that wait for a place, the first first, with the host time at which each was told to ask. */
  private readonly line = new Map<string, number>();

  /** `changed`: one more shows digits, or one less. */
  constructor(ports: WallDigitsPorts, changed: () => void) {
    this.ports = ports;
    this.changed = changed;
  }

  count(): number {
    return this.showing.size;
  }

  /** The returned function ends it. */
  add(wall: Showing): () => void {
    const [earlier] = this.find((each) => each.from === wall.from);
    const left = earlier ? this.left(this.showing.get(earlier)!) : 0;
    if (left > 0) wall.sendAway(SAME_ADDRESS, left);
    else this.addInOrder(wall, earlier);
    return () => this.leave(wall);
  }

  /** Lets the wall in that shows these digits; false if none does. */
  letIn(digits: string): boolean {
    const [wall] = this.find((_, shown) => shown.digits === digits);
    if (!wall) return false;
    this.leave(wall);
    wall.letIn();
    return true;
  }

  /** `earlier`: of the same address, which has had its turn. */
  private addInOrder(wall: Showing, earlier: Showing | undefined): void {
    const places = this.placesBefore(wall.from);
    const hadTheirTurn = this.find((_, shown) => this.left(shown) === 0);
    const free = MOST_SHOWING - this.showing.size;
    if (places >= free + hadTheirTurn.length) wall.sendAway(TOO_MANY, this.waitInLine(wall.from));
    else if (earlier) this.replace(earlier, wall, SAME_ADDRESS, JOINING_TIME);
    else if (places < free) this.begin(wall);
    else this.replace(hadTheirTurn[0]!, wall, TOO_MANY, this.waitInLine(hadTheirTurn[0]!.from));
  }

  /** How many are in line before this address. Who has not come when told is in line no longer. */
  private placesBefore(from: string): number {
    const now = this.ports.clock.now();
    for (const [each, at] of this.line) if (at + MAY_BE_LATE < now) this.line.delete(each);
    const place = [...this.line.keys()].indexOf(from);
    return place < 0 ? this.line.size : place;
  }

  /** In ms: when this address, which is in line from now on, has its turn. */
  private waitInLine(from: string): number {
    const place = this.placesBefore(from);
    const lefts = Array.from(this.showing.values(), (shown) => this.left(shown)).sort((a, b) => a - b);
    const wait = lefts[place % lefts.length]! + Math.floor(place / lefts.length) * JOINING_TIME;
    if (this.line.has(from) || this.line.size < MOST_IN_LINE) this.line.set(from, this.ports.clock.now() + wait);
    return wait;
  }

  private replace(earlier: Showing, wall: Showing, why: string, wait: number): void {
    this.leave(earlier);
    earlier.sendAway(why, wait);
    this.begin(wall);
  }

  private begin(wall: Showing): void {
    this.line.delete(wall.from);
    this.renew(wall, this.ports.clock.now() + JOINING_TIME);
    this.changed();
  }

  private left({ until }: Shown): number {
    return Math.max(0, Math.ceil(until - this.ports.clock.now()));
  }

  private find(isMeant: (wall: Showing, shown: Shown) => boolean): readonly Showing[] {
    return [...this.showing].filter(([wall, shown]) => isMeant(wall, shown)).map(([wall]) => wall);
  }

  private renew(wall: Showing, until: number): void {
    const digits = this.freeDigits();
    const timer = this.ports.timers.set(() => this.renew(wall, until), JOINING_TIME);
    this.showing.set(wall, { digits, timer, until });
    wall.show(digits);
  }

  private freeDigits(): string {
    for (;;) {
      const digits = String(this.ports.chance.below(10_000)).padStart(4, '0');
      if (this.find((_, shown) => shown.digits === digits).length === 0) return digits;
    }
  }

  private leave(wall: Showing): void {
    const shown = this.showing.get(wall);
    if (!shown) return;
    this.ports.timers.clear(shown.timer);
    this.showing.delete(wall);
    this.changed();
  }
}
