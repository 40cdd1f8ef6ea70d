/*
 * What a command's own file says of it for the run: its fields, its rule, and what else the run must know.
 */

import type { Millis } from '../units.ts';
import type { Outcome } from './answer.ts';
import type { Field } from './command-fields.ts';
import type { CommandFields, CommandName, CommandOf } from './command.ts';
import type { LaneState, RunState } from './state.ts';

export interface Rule<Name extends CommandName> {
  readonly fields: { readonly [K in keyof CommandFields[Name]]-?: Field<Exclude<CommandFields[Name][K], undefined>> };
  /**
   * The run with the command carried out, from how it stands (`now`) at the command's time, or why not. `before`
   * is the run as the command before left it.
   */
  carryOut(now: RunState, command: CommandOf<Name>, at: Millis, before: RunState): Outcome;
  /** False where the run's own course stays as it is: then it is taken after the end too, R6 does not count from it, and it cannot be undone. */
  readonly steers: boolean;
  /**
   * Whether it drops, moves or repeats reps of a lane that it is for, so that it is refused where the lane's next
   * rep is no longer the one that was on the screen; null where it is not about single reps.
   */
  readonly touches: ((lane: LaneState, command: CommandOf<Name>) => boolean) | null;
  /** It takes leaves away: an undo that comes too late to have it undone can make a stop of it. */
  readonly takesLeavesAway?: true;
  /** The stretch that is going is given up: nobody waits for its swimmers any more. */
  readonly givesUp?: true;
  /** The two notes that tell of it, where it stops lanes or lets them go on. */
  readonly sign?: 'stop' | 'resume';
  /** Where the state keeps the time of the last one. */
  readonly keepsTime?: 'startedAt' | 'stoppedAt' | 'resumedAt';
}
