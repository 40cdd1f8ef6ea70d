/*
 * Decides which screens sound. Unless more are wanted, only the one that was switched on last does; the others learn
 * that they must fall silent. A wall screen takes the sound from other wall screens alone: anybody may open one. A
 * screen that goes away frees its place.
 */

import type { FromHost, ScreenKind, SoundReport } from '../../../wire/messages.ts';

export type SoundTold = Omit<Extract<FromHost, { say: 'sound' }>, 'say'>;

interface Entry {
  readonly screen: ScreenKind;
  readonly report: SoundReport;
  /** Higher for each screen that begins to sound; null for one that does not sound. */
  since: number | null;
}

export class SoundArbiter {
  private readonly entries = new Map<string, Entry>();
  private readonly listeners = new Set<() => void>();
  private more: boolean | null = null;
  private turns = 0;

  /**
   * Takes a screen's report. The returned function forgets the screen, unless it has said something newer. A report
   * under an id that a screen of another kind has is not taken.
   */
  take(screen: ScreenKind, report: SoundReport): () => void {
    const { id, asked, more } = report;
    const before = this.entries.get(id);
    if (before && before.screen !== screen) return () => undefined;
    // A screen that was open before the host started knows what was wanted then; what is asked now counts more.
    if (screen !== 'wall' && more !== null && (asked || this.more === null)) this.more = more;
    const wants = report.status !== 'off' && report.status !== 'missing';
    const since = before?.since ?? null;
    const entry: Entry = { screen, report, since: wants ? since : null };
    this.entries.set(id, entry);
    if (wants && (asked || (since === null && this.hasRoom()))) entry.since = this.turns++;
    if (this.more !== true) this.leaveOne();
    this.changed();
    return () => {
      if (this.entries.get(id) !== entry) return;
      this.entries.delete(id);
      this.changed();
    };
  }

  /** What a screen is told: coaches of all that have reported, a wall screen of itself. The ids of others stay here. */
  toldTo(kind: ScreenKind, own: string | null): SoundTold {
    const mine = own === null ? undefined : this.entries.get(own);
    const told: readonly (readonly [string, Entry])[] =
      kind === 'wall' ? (mine ? [[own!, mine]] : []) : [...this.entries];
    const screens = told.map(([id, { screen, report, since }]) => ({
      id: id === own ? id : null,
      screen,
      n: report.n,
      status: report.status,
      on: since !== null,
    }));
    return { more: this.more, screens };
  }

  /** Calls back after each report and when a screen is gone; the returned function stops that. */
  onChange(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  private hasRoom(): boolean {
    return this.more === true || [...this.entries.values()].every(({ since }) => since === null);
  }

  /** Of those that sound the last that was switched on; a wall screen only where no other does. */
  private leaveOne(): void {
    const sounding = [...this.entries.values()].filter(({ since }) => since !== null);
    const first = sounding.filter(({ screen }) => screen !== 'wall');
    const last = Math.max(...(first.length > 0 ? first : sounding).map(({ since }) => since!));
    for (const entry of sounding) if (entry.since !== last) entry.since = null;
  }

  private changed(): void {
    for (const listener of this.listeners) listener();
  }
}
