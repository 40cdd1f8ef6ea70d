/*
 * Room for so many who have not said yet what they want. Where one more comes, the one that has waited longest
 * is sent away, so that those who say nothing never keep out one who does.
 */

export class Doorstep {
  private readonly room: number;
  /** Oldest first. */
  private readonly waiting = new Set<{ readonly sendAway: () => void }>();

  constructor(room: number) {
    this.room = room;
  }

  /** One more; the returned function takes it off again, for whatever reason. */
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
