/*
 * A limited number of places for connections that have not said what they want. When one more comes, the one that has
 * waited longest is sent away, of the address that holds most places. So silent connections never keep out one that
 * speaks, and whoever opens many keeps out mostly themselves.
 */

interface Waiting {
  readonly from: string;
  readonly sendAway: () => void;
  isSpared: boolean;
}

export interface Place {
  leave(): void;
  /** From now on others go first. */
  spare(): void;
}

/** How many places an address holds, and how many of them can be taken from it before others'. */
interface Held {
  all: number;
  unspared: number;
}

/** A flood comes thousands of times a second: nothing here makes a list. */
export class Doorstep {
  private readonly room: number;
  private readonly roomOfOne: number;
  /** Oldest first. */
  private readonly waiting = new Set<Waiting>();
  private readonly held = new Map<string, Held>();

  /** `roomOfOne`: how many places one address may hold. */
  constructor(room: number, roomOfOne = room) {
    this.room = room;
    this.roomOfOne = roomOfOne;
  }

  /** Adds one from an address. */
  enter(sendAway: () => void, from = ''): Place {
    const guest = { from, sendAway, isSpared: false };
    const held = this.held.get(from) ?? { all: 0, unspared: 0 };
    held.all++;
    held.unspared++;
    this.held.set(from, held);
    this.waiting.add(guest);
    const isOneTooMany = held.all > this.roomOfOne;
    if (isOneTooMany || this.waiting.size > this.room) this.sendOldest(isOneTooMany ? from : this.greediest());
    return { leave: () => this.remove(guest), spare: () => this.spare(guest) };
  }

  private sendOldest(from: string): void {
    const takesSpared = this.held.get(from)!.unspared === 0;
    for (const each of this.waiting) {
      if (each.from !== from || (each.isSpared && !takesSpared)) continue;
      this.remove(each);
      return each.sendAway();
    }
  }

  /** The address that holds most, of two the one that came first. */
  private greediest(): string {
    let greediest = '';
    let most: Held = { all: 0, unspared: 0 };
    for (const [from, held] of this.held) {
      if (held.unspared < most.unspared || (held.unspared === most.unspared && held.all <= most.all)) continue;
      greediest = from;
      most = held;
    }
    return greediest;
  }

  private spare(guest: Waiting): void {
    if (guest.isSpared || !this.waiting.has(guest)) return;
    guest.isSpared = true;
    this.held.get(guest.from)!.unspared--;
  }

  private remove(guest: Waiting): void {
    if (!this.waiting.delete(guest)) return;
    const held = this.held.get(guest.from)!;
    held.all--;
    if (!guest.isSpared) held.unspared--;
    if (held.all === 0) this.held.delete(guest.from);
  }
}
