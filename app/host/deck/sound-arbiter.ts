/*
 * Which screens sound. Only one does, the one that was switched on last, unless more are wanted; the
 * others learn from the snapshot that they are to fall silent. A screen that goes away frees its place.
 */

import type { Snapshot, SoundReport } from '../../wire/messages.ts';

type Told = NonNullable<Snapshot['sound']>;
type ScreenKind = Told['screens'][number]['screen'];

interface Entry {
  readonly screen: ScreenKind;
  readonly report: SoundReport;
  /** Rises with every screen that comes to sound; null for one that does not. */
  since: number | null;
}

export class SoundArbiter {
  private readonly entries = new Map<string, Entry>();
  private more: boolean | null = null;
  private turns = 0;

  /** Returns what forgets the screen again, unless it has said something newer; true where it was known. */
  take(screen: ScreenKind, report: SoundReport): () => boolean {
    const { id, asked, more } = report;
    // A screen that was there before the host came knows what was wanted then; what is asked now is stronger.
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
