/*
 * A limited number of places for connections that have not said what they want. When one more comes, the one that has
 * waited longest is sent away. So silent connections never keep out one that speaks.
 */

export class Doorstep {
  private readonly room: number;
  /** Oldest first. */
  private readonly waiting = new Set<{ readonly sendAway: () => void }>();

  constructor(room: number) {
    this.room = room;
  }

  /** Adds one; the returned function removes it again. */
  enter(sendAway: () => void): () => void {
    const guest = { sendAway };
    this.waiting.add(guest);
    if (this.waiting.size > this.room) {
      const [oldest] = this.waiting;
      this.waiting.delete(oldest!);
      oldest!.sendAway();
    }
    return () => this.waiting.delete(guest);
  }
}
