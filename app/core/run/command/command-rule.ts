/*
 * What the run needs to know about a command: its fields, its rule and its properties. Each command's own file in
 * `commands/` says it.
 */

import type { Millis } from '../../units.ts';
import type { Outcome } from './answer.ts';
import type { Field } from './command-fields.ts';
import type { CommandFields, CommandName, CommandOf } from './command.ts';
import type { LaneState, RunState } from '../state.ts';

export interface Rule<Name extends CommandName> {
  readonly fields: { readonly [K in keyof CommandFields[Name]]-?: Field<Exclude<CommandFields[Name][K], undefined>> };
  /**
   * Carries the command out on `now`, the run at the command's time, or says why not. `before` is the run as the
   * command before this one left it.
   */
  carryOut(now: RunState, command: CommandOf<Name>, at: Millis, before: RunState): Outcome;
  /**
   * False for a command that does not change the course of the run. Such a command is accepted even after the end,
   * R6 does not count from it, and it cannot be undone.
   */
  readonly steers: boolean;
  /**
   * Whether the command drops, moves or repeats reps of this lane. If it does, it is refused when the lane's next rep
   * is no longer the one that the screen showed. Null for a command that is not about single reps.
   */
  readonly touches: ((lane: LaneState, command: CommandOf<Name>) => boolean) | null;
  /** It takes leaves away, so an undo that comes too late can treat it as a stop and resume that. */
  readonly takesLeavesAway?: true;
  /** It abandons the stretch that is going: nobody waits for its swimmers any more. */
  readonly givesUp?: true;
  /** It may send off lanes that a Stop holds: refused after a Stop that the screen had not seen. */
  readonly liftsStop?: true;
  /** Which two notes are played for it: those for lanes stopped, or those for lanes resumed. */
  readonly sign?: 'stop' | 'resume';
  /** The field of the state that keeps the time of the last such command. */
  readonly keepsTime?: 'startedAt' | 'stoppedAt' | 'resumedAt';
}
