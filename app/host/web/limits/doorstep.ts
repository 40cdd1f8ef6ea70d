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

export class Doorstep {
  private readonly room: number;
  private readonly roomOfOne: number;
  /** Oldest first. */
  private readonly waiting = new Set<Waiting>();

  /** `roomOfOne`: how many places one address may hold. */
  constructor(room: number, roomOfOne = room) {
    this.room = room;
    this.roomOfOne = roomOfOne;
  }

  /** Adds one from an address. */
  enter(sendAway: () => void, from = ''): Place {
    const guest = { from, sendAway, isSpared: false };
    this.waiting.add(guest);
    const isOneTooMany = this.heldBy(from) > this.roomOfOne;
    if (isOneTooMany || this.waiting.size > this.room) this.sendOldest(isOneTooMany ? from : this.greediest());
    return { leave: () => void this.waiting.delete(guest), spare: () => void (guest.isSpared = true) };
  }

  private sendOldest(from: string): void {
    const its = [...this.waiting].filter((each) => each.from === from);
    const oldest = its.find(({ isSpared }) => !isSpared) ?? its[0]!;
    this.waiting.delete(oldest);
    oldest.sendAway();
  }

  private greediest(): string {
    const held = new Map<string, number>();
    const all = [...this.waiting];
    const goFirst = all.filter(({ isSpared }) => !isSpared);
    for (const { from } of goFirst.length > 0 ? goFirst : all) held.set(from, (held.get(from) ?? 0) + 1);
    return [...held].reduce((most, each) => (each[1] > most[1] ? each : most))[0];
  }

  private heldBy(from: string): number {
    let held = 0;
    for (const each of this.waiting) if (each.from === from) held++;
    return held;
  }
}
