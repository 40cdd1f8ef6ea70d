/*
 * What the host needs of a journal, and one that only remembers. Every accepted command is given to
 * the journal before the command is answered.
 */

import type { Millis } from '../core/units.ts';
import type { Source } from '../core/plan/plan.ts';
import type { Leave } from '../core/run/record.ts';

export interface Journal {
  /** A new run; closes the one before. */
  open(opening: Opening): Promise<void>;
  /**
   * Resolves once this line and all before it are on the disk. Rejects with the reason where the disk
   * refuses; the line is kept then and written with the next. Not waited for longer than 100 ms.
   */
  append(line: JournalLine): Promise<void>;
  /** A sign of life with the leaves handed over since the last, not waited for. */
  alive(sign: AliveSign): void;
}

/** The moment of a line, on the clocks that outlive a process and on the one that does not. */
export interface Moment {
  readonly hostTime: number;
  readonly wallMs: number;
}

export interface Opening extends Moment {
  readonly run: string;
  readonly source: Source;
  /** What the pool's clock shows past the full minute at t = 0, 0 to 59 999 ms. */
  readonly clockPhase: Millis;
  readonly openedAtTimeOfDay: Millis;
}

export interface JournalLine extends Moment {
  readonly run: string;
  /** Of the command. */
  readonly id: string;
  /** Since the run was opened, whole. */
  readonly at: Millis;
  readonly fields: Readonly<Record<string, unknown>>;
}

export interface AliveSign extends Moment {
  readonly run: string;
  readonly at: Millis;
  readonly leaves: readonly Leave[];
}

/** A journal in memory: nothing outlives the process. `lines` are what a disk would hold, signs of life apart. */
export class JournalInMemory implements Journal {
  readonly openings: Opening[] = [];
  readonly lines: JournalLine[] = [];
  lastSign: AliveSign | null = null;

  open(opening: Opening): Promise<void> {
    this.openings.push(opening);
    return Promise.resolve();
  }

  append(line: JournalLine): Promise<void> {
    this.lines.push(line);
    return Promise.resolve();
  }

  alive(sign: AliveSign): void {
    this.lastSign = sign;
  }
}
