/*
 * What the host needs of a journal. Every accepted command is given to the journal before the command is
 * answered.
 */

import type { Millis } from '../../core/units.ts';
import type { Source } from '../../core/plan/plan.ts';
import type { Leave } from '../../core/run/record.ts';
import type { ClockInstant } from '../time/clock.ts';
import type { ClosedWhy } from './journal-line.ts';

export interface Journal {
  /**
   * A new run. `replaced`: how the one before is closed, unless it is; null where there is none. It is closed when
   * the new one is on the disk, so that a kill between the two leaves one of them. Resolves with the new one.
   */
  open(opening: Opening, replaced: Closing | null): Promise<void>;
  append(line: JournalLine): Writing;
  /** A sign of life with the leaves handed over since the last, not waited for. */
  alive(sign: AliveSign): void;
  /** The run that was found is taken up again. Resolves and rejects as what `append` makes safe. */
  back(comeback: Comeback): Promise<void>;
  /** Nothing more is to come, marks apart. Resolves and rejects likewise; does nothing for a run that is closed. */
  close(closing: Closing): Promise<void>;
  /** Calls back whenever all that was refused has got onto the disk after all. */
  onCaughtUp(listener: () => void): void;
}

/** A line on its way to the disk. */
export interface Writing {
  /** Resolves once it is in the file, where a kill of the process does not reach it. */
  readonly inFile: Promise<void>;
  /**
   * Resolves once this line and all before it are on the disk. Rejects with the reason where the disk refuses; the
   * line is kept then and written with the next.
   */
  readonly safe: Promise<void>;
}

export interface Opening extends ClockInstant {
  readonly run: string;
  readonly source: Source;
  /** What the pool's clock shows past the full minute at t = 0, 0 to 59 999 ms. */
  readonly clockPhase: Millis;
  readonly openedAtTimeOfDay: Millis;
  /** Since t = 0, with a fraction, for a run whose clock was matched later; 0 where it is left out. */
  readonly at?: number;
}

export interface JournalLine extends ClockInstant {
  readonly run: string;
  /** Of the command. */
  readonly id: string;
  /** Since the run was opened, whole. */
  readonly at: Millis;
  readonly fields: Readonly<Record<string, unknown>>;
}

export interface AliveSign extends ClockInstant {
  readonly run: string;
  readonly at: Millis;
  readonly leaves: readonly Leave[];
}

export interface Comeback extends ClockInstant {
  readonly run: string;
  /** Since the run was opened, with a fraction: the lines that follow are counted from here. */
  readonly at: number;
  /** The clock by which the time that nobody was there was found. */
  readonly by: 'monotonic' | 'wall';
}

export interface Closing extends ClockInstant {
  readonly run: string;
  readonly at: Millis;
  readonly why: ClosedWhy;
}
