/*
 * Decides which screens sound. Unless more are wanted, only the one that was switched on last does; the others learn
 * from the snapshot that they must fall silent. A screen that goes away frees its place.
 */

import type { ScreenKind, Snapshot, SoundReport } from '../../wire/messages.ts';

type Told = NonNullable<Snapshot['sound']>;

interface Entry {
  readonly screen: ScreenKind;
  readonly report: SoundReport;
  /** Higher for each screen that begins to sound; null for one that does not sound. */
  since: number | null;
}

export class SoundArbiter {
  private readonly entries = new Map<string, Entry>();
  private more: boolean | null = null;
  private turns = 0;

  /**
   * Takes a screen's report. The returned function forgets the screen, unless it has said something newer; it gives true
   * if the screen was known.
   */
  take(screen: ScreenKind, report: SoundReport): () => boolean {
    const { id, asked, more } = report;
    // A screen that was open before the host started knows what was wanted then; what is asked now counts more.
    if (more !== null && (asked || this.more === null)) this.more = more;
    const wants = report.status !== 'off' && report.status !== 'missing';
    const since = this.entries.get(id)?.since ?? null;
    const entry: Entry = { screen, report, since: wants ? since : null };
    this.entries.set(id, entry);
    if (wants && (asked || (since === null && this.hasRoom()))) entry.since = this.turns++;
    if (this.more !== true) this.leaveOne();
    return () => this.entries.get(id) === entry && this.entries.delete(id);
  }

  told(): Told {
    const screens = Array.from(this.entries.values(), ({ screen, report: { id, n, status }, since }) => ({
      id,
      screen,
      n,
      status,
      on: since !== null,
    }));
    return { more: this.more, screens };
  }

  private hasRoom(): boolean {
    return this.more === true || [...this.entries.values()].every(({ since }) => since === null);
  }

  private leaveOne(): void {
    const last = Math.max(...Array.from(this.entries.values(), ({ since }) => since ?? -1));
    for (const entry of this.entries.values()) if (entry.since !== last) entry.since = null;
  }
}
