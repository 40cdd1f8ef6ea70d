/*
 * Waits for the journal, but not for long: a disk that refuses or dawdles does not stop the run. The
 * coach is told for as long as anything is not on the disk.
 */

import type { Timers } from '../time/timers.ts';

/**
 * In ms: longer than a healthy disk takes, shorter than a coach notices, and less than a leave is on its way:
 * a command that is carried out later than that comes too late for a leave that was handed over meanwhile.
 */
const PATIENCE = 100;

/**
 * In ms: so much longer for a line that is not even in the file, where a kill of the process would not reach it. It
 * takes a moment, which one that has waited for others may not have had. Both together are less than a leave is on its way.
 */
const FOR_THE_FILE = 100;

/**
 * In ms: a process that gets no turn may find all that time gone before it has even begun to write. So long the file is
 * waited for then; not behind a disk that is known to be slow, where each would wait so long behind the one before.
 */
const LEAST_FOR_THE_FILE = 40;

/**
 * In ms, for the first line of a run that has come back: its file is opened and read back first, which on a busy
 * machine takes a while, and a command given meanwhile would wait behind that for longer than it may.
 */
export const PATIENCE_AT_START = 2000;

export class JournalWatch {
  private readonly timers: Timers;
  private readonly changed: () => void;
  /** Numbers the writes; a notice is of one of them, and gone once that or a later one is on the disk. */
  private writes = 0;
  private behind: { readonly write: number; readonly why: string } | null = null;
  private over = false;

  /** `changed` is called when the notices are not what they were. */
  constructor(timers: Timers, changed: () => void) {
    this.timers = timers;
    this.changed = changed;
  }

  /**
   * Resolves when the writing is done, has failed, or has taken too long; never rejects. `waited`: for how
   * long, in ms, the one who gave it has waited already for what was to be written before. `inFile`: when what
   * is written is in its file, if not yet safe there. `patience`: how long is too long, in ms.
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
      // A process that was held up finds all its timers due before it hears what the disk has done meanwhile: once more.
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
        // Both branches are dealt with; nothing is left to fail.
        .catch(() => undefined);
    });
  }

  /** Everything that was ever given to the journal is on the disk. */
  caughtUpWithAll(): void {
    this.caughtUp(this.writes);
  }

  /** Nothing is written any more, which the coach is told apart from this. */
  giveUp(): void {
    this.over = true;
  }

  /** What the coach must be told, for as long as it lasts. */
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
    `The record is not on the disk (${why}): the run goes on, and would not survive a crash. ` +
    'It is tried again and again: see to the disk, and keep this machine running.'
  );
}
