/*
 * What the host needs from a journal. Every accepted command is given to the journal before it is answered.
 */

import type { Millis } from '../../core/units.ts';
import type { Source } from '../../core/plan/plan.ts';
import type { Leave } from '../../core/run/record.ts';
import type { ClockInstant } from '../time/clock.ts';
import type { Commander } from '../sharing/doors/guest.ts';
import type { ClosedWhy } from './journal-line.ts';

export interface Journal {
  /**
   * Begins a new run. `replaced`: how to close the run before, if it is not closed; null if there is none. It is closed
   * only after the new run is on the disk, so that a kill in between leaves one of them. Resolves when the new run is
   * on the disk.
   */
  open(opening: Opening, replaced: Closing | null): Promise<void>;
  append(line: JournalLine): Writing;
  /** Writes a sign of life with the leaves handed over since the last one. Nobody waits for it. */
  alive(sign: AliveSign): void;
  /** Takes up the run that was found. Resolves and rejects like `safe` of `append`. */
  back(comeback: Comeback): Promise<void>;
  /** Closes the run: only marks may follow. Resolves and rejects likewise; does nothing if the run is closed. */
  close(closing: Closing): Promise<void>;
  /** Lets go of a file that is closed, so that it may be removed; false where something of it is still to be written. */
  letGo(): Promise<boolean>;
  /** Calls back whenever everything that the disk had refused is on it after all. */
  onCaughtUp(listener: () => void): void;
}

/** A line on its way to the disk. */
export interface Writing {
  /** Resolves once the line is in the file, where it outlives the process. */
  readonly inFile: Promise<void>;
  /**
   * Resolves once this line and all before it are on the disk. Rejects with the reason if the disk refuses; the line is
   * then kept and written with the next one.
   */
  readonly safe: Promise<void>;
}

export interface Opening extends ClockInstant {
  readonly run: string;
  readonly source: Source;
  /** What the pool's clock shows past the full minute at t = 0, 0 to 59 999 ms. */
  readonly clockPhase: Millis;
  readonly openedAtTimeOfDay: Millis;
  /** ms since t = 0, with a fraction, for a run whose clock was matched later; 0 if left out. */
  readonly at?: number;
}

export interface JournalLine extends ClockInstant {
  readonly run: string;
  /** The command's id. */
  readonly id: string;
  /** Whole ms since the run was opened. */
  readonly at: Millis;
  readonly fields: Readonly<Record<string, unknown>>;
  /** Not known for one that is taken over from another journal. */
  readonly by?: Commander;
}

export interface AliveSign extends ClockInstant {
  readonly run: string;
  readonly at: Millis;
  readonly leaves: readonly Leave[];
}

export interface Comeback extends ClockInstant {
  readonly run: string;
  /** ms since the run was opened, with a fraction: later lines are counted from here. */
  readonly at: number;
  /** The clock that told how long the program was not running. */
  readonly by: 'monotonic' | 'wall';
}

export interface Closing extends ClockInstant {
  readonly run: string;
  readonly at: Millis;
  readonly why: ClosedWhy;
}
