/*
 * What the coach must be told once after the host was started: about the run that has come back, damaged records, and
 * runs that were left unattended.
 */

import type { Snapshot } from '../../wire/messages.ts';
import type { Recovery } from './recovery.ts';

export class StartUpReport {
  private away: string | null;
  private said: readonly string[];
  private run: string | null;
  private unattended: readonly string[];
  private readonly unattendedTold: () => Promise<void>;

  constructor({ found, away, said, unattended }: Recovery) {
    this.away = away;
    this.said = said;
    this.run = found && found.run;
    this.unattended = unattended.runs;
    this.unattendedTold = unattended.told;
  }

  notices(): readonly string[] {
    return [...(this.away === null ? [] : [this.away]), ...this.said];
  }

  forScreens(): Snapshot['startUp'] {
    if (this.notices().length === 0 && this.unattended.length === 0) return null;
    return { run: this.run, unattended: [...this.unattended] };
  }

  /** Whether this run has come back and the coach may still leave it. */
  offersToLeave(run: string): boolean {
    return this.run === run;
  }

  /** To be called when another run is opened: the rest of the report is still to be read. */
  otherRunOpened(): void {
    this.away = this.run = null;
  }

  /** To be called when the coach has read it all. Resolves when that is on the disk or the disk refuses; never rejects. */
  async told(): Promise<void> {
    const listed = this.unattended.length;
    this.otherRunOpened();
    this.said = [];
    this.unattended = [];
    if (listed > 0) await this.unattendedTold();
  }
}
