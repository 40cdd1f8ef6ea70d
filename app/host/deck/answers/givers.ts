/*
 * Who gave which command of the run, for those who may take back their own only.
 */

import type { Command } from '../../../core/run/command/command.ts';
import type { Undoable } from '../../../core/run/state.ts';
import type { Millis } from '../../../core/units.ts';
import { askerOf, undoesOwnOnly, type Commander } from '../../sharing/doors/guest.ts';

export class Givers {
  /** By time and name of the command. */
  private readonly askers = new Map<string, string>();

  gave(asker: string, name: Command['do'], at: Millis): void {
    this.askers.set(keyOf(name, at), asker);
  }

  /** Whether an undo would take back what somebody else has done, and may not. */
  isForbidden(undoable: readonly Undoable[], by: Commander): boolean {
    const last = undoable[undoable.length - 1];
    if (!undoesOwnOnly(by) || !last) return false;
    return this.askers.get(keyOf(last.command.do, last.at)) !== askerOf(by);
  }

  clear(): void {
    this.askers.clear();
  }
}

/** Of two that were given within one ms, the later one counts: it is the one that an undo would take back. */
function keyOf(name: Command['do'], at: Millis): string {
  return `${at} ${name}`;
}
