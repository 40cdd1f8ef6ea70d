/*
 * Waits for the journal, but not for long: a disk that refuses or is slow does not stop the run. As long as anything
 * is not on the disk, the coach is told so.
 */

import type { Timers } from '../time/timers.ts';

/**
 * In ms. Longer than a healthy disk takes and shorter than a coach notices. Also less than ON_ITS_WAY, the time for
 * which a leave is on its way to the loudspeaker: a command carried out later than that comes too late for the leave.
 */
const PATIENCE = 100;

/**
 * In ms: how much longer to wait for a line that is not even in the file, where it would outlive the process. A line
 * that has waited behind others may not have had time for that. Both waits together are still less than ON_ITS_WAY.
 */
const FOR_THE_FILE = 100;

/**
 * In ms: the least wait for the file. A process that was held up may find its time over before it has begun to write.
 * It does not apply when the disk is known to be slow: each line would wait this long behind the one before.
 */
const LEAST_FOR_THE_FILE = 40;

/**
 * In ms, for the first line of a run that has come back. Its file is opened and read first, which takes a while on a
 * busy machine, and a command given meanwhile would have to wait for that.
 */
export const PATIENCE_AT_START = 2000;

export class JournalWatch {
  private readonly timers: Timers;
  private readonly changed: () => void;
  /** Numbers the writes. A notice belongs to one of them, and goes once that one or a later one is on the disk. */
  private writes = 0;
  private behind: { readonly write: number; readonly why: string } | null = null;
  private over = false;

  /** `changed` is called when the notices have changed. */
  constructor(timers: Timers, changed: () => void) {
    this.timers = timers;
    this.changed = changed;
  }

  /**
   * Resolves when the writing is done, has failed, or has taken too long; never rejects. `waited`: how long the
   * caller has already waited for earlier writes, in ms. `inFile`: resolves when the line is in its file, if not yet
   * safe there. `patience`: how long is too long, in ms.
   */
  written(
    writing: Promise<void>,
    waited = 0,
    inFile: Promise<void> = Promise.resolve(),
    patience = PATIENCE,
  ): Promise<void> {
    const write = ++this.writes;
    const least = this.behind ? 0 : LEAST_FOR_THE_FILE;
    return new Promise((resolve) => {
      const slow = (): void => {
        this.fallBehind(write, 'the disk is slow');
        void inFile.then(resolve);
      };
      const timer = this.timers.set(slow, Math.max(0, patience - waited));
      // A process that was held up finds its timers due before it hears from the disk: it waits once more.
      let last = this.timers.set(
        () => (last = this.timers.set(resolve, 0)),
        Math.max(least, patience + FOR_THE_FILE - waited),
      );
      writing
        .then(
          () => this.caughtUp(write),
          (error: unknown) => this.fallBehind(write, error instanceof Error ? error.message : String(error)),
        )
        .finally(() => {
          this.timers.clear(timer);
          this.timers.clear(last);
          resolve();
        })
        // Both outcomes are handled above.
        .catch(() => undefined);
    });
  }

  /** To be called when everything that was given to the journal is on the disk. */
  caughtUpWithAll(): void {
    this.caughtUp(this.writes);
  }

  /** To be called when nothing is written any more. The coach is told that elsewhere. */
  giveUp(): void {
    this.over = true;
  }

  /** What the coach must be told now. */
  notices(): readonly string[] {
    return this.behind && !this.over ? [noticeOf(this.behind.why)] : [];
  }

  private fallBehind(write: number, why: string): void {
    this.behind = { write, why };
    this.changed();
  }

  private caughtUp(write: number): void {
    if (!this.behind || write < this.behind.write) return;
    this.behind = null;
    this.changed();
  }
}

function noticeOf(why: string): string {
  return (
    `The record is not on the disk (${why}): the run goes on, but would not survive a crash. ` +
    'Lanecall keeps trying: check the disk, and keep this machine running.'
  );
}
