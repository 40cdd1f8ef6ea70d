/*
 * What the coach adds to a run, saved soon after it is typed. Another window may add to the same run: where it has, what
 * was changed here is put on top of what it wrote, and saved again.
 */

import type { Afterwards, Attendance } from '../../../../app/core/record/afterwards.ts';
import type { AskRecords } from '../../../link/requests/records.ts';

export interface Added {
  readonly added: Afterwards;
  readonly isSaved: boolean;
  /** Why it could not be saved; null where it could. It is tried again. */
  readonly refused: string | null;
}

export interface AddingPorts {
  readonly ask: AskRecords;
  readonly run: string;
  /** Calls once in that many ms; what it returns calls that off. */
  readonly after: (call: () => void, ms: number) => () => void;
  onSaved(): void;
}

/** A change of what was added, whatever that is by then. */
export type Change = (added: Afterwards) => Afterwards;

/** In ms: what is typed in it goes with one save. */
export const SAVE_AFTER = 500;

/** In ms. */
export const TRY_AGAIN_AFTER = 3000;

export class Adding {
  private readonly ports: AddingPorts;
  private now: Added;
  /** Of what the host has; null for nothing so far. */
  private version: string | null;
  /** What it does not have yet. */
  private changes: readonly Change[] = [];
  private callOff: (() => void) | null = null;
  private turn: Promise<void> = Promise.resolve();
  private readonly listeners = new Set<() => void>();

  constructor(ports: AddingPorts, kept: { readonly added: Afterwards; readonly version: string | null }) {
    this.ports = ports;
    this.version = kept.version;
    this.now = { added: kept.added, isSaved: true, refused: null };
  }

  state = (): Added => this.now;

  subscribe = (call: () => void): (() => void) => {
    this.listeners.add(call);
    return () => this.listeners.delete(call);
  };

  change(change: Change): void {
    this.changes = [...this.changes, change];
    this.tell({ added: change(this.now.added), isSaved: false });
    this.saveIn(SAVE_AFTER);
  }

  /** Saves now what is not saved yet; resolves when that is answered. */
  flush(): Promise<void> {
    this.callOff?.();
    this.callOff = null;
    this.turn = this.turn.then(() => this.save());
    return this.turn;
  }

  private async save(): Promise<void> {
    const sent = this.changes;
    if (sent.length === 0) return;
    const { ask, run } = this.ports;
    const answer = await ask<'keep'>({ do: 'keep', run, version: this.version, added: this.now.added });
    if (answer.ok) {
      this.version = answer.version;
      this.changes = this.changes.slice(sent.length);
      const isSaved = this.changes.length === 0;
      this.tell({ isSaved, refused: null });
      this.ports.onSaved();
      if (!isSaved) this.saveIn(SAVE_AFTER);
    } else if (answer.changed) {
      this.version = answer.changed.version;
      this.tell({ added: this.changes.reduce((added, change) => change(added), answer.changed.added) });
      await this.save();
    } else {
      this.tell({ refused: answer.why });
      this.saveIn(TRY_AGAIN_AFTER);
    }
  }

  private saveIn(ms: number): void {
    this.callOff ??= this.ports.after(() => void this.flush(), ms);
  }

  private tell(part: Partial<Added>): void {
    this.now = { ...this.now, ...part };
    for (const call of this.listeners) call();
  }
}

export function withEffort(effort: number | null): Change {
  return (added) => ({ ...added, effort });
}

export function withMarkWords(command: number, words: string): Change {
  return (added) => {
    const others = added.marks.filter((mark) => mark.command !== command);
    const marks = words === '' ? others : [...others, { command, words }].sort((a, b) => a.command - b.command);
    return { ...added, marks };
  };
}

/** `before`: the notes that were changed; any that another window has written since stay. */
export function withNotes(before: readonly string[], notes: readonly string[]): Change {
  return (added) => {
    const others = added.notes.filter((note) => !before.includes(note) && !notes.includes(note));
    return { ...added, notes: [...notes, ...others] };
  };
}

/** Who was there in one lane; null where nobody says so any more. */
export function withAttendance(lane: number, there: Attendance | null): Change {
  return (added) => {
    const others = (added.attendance ?? []).filter((each) => each.lane !== lane);
    const attendance = there === null ? others : [...others, there].sort((a, b) => a.lane - b.lane);
    return { ...added, attendance: attendance.length === 0 ? null : attendance };
  };
}
