/*
 * The run as a fold: a state and a command give the next state, or a refusal that changes nothing.
 * Nothing here reads a clock; the caller passes every time.
 */

import type { Millis } from '../units.ts';
import type { Plan } from '../plan/plan.ts';
import { UNDO_FOR } from './align.ts';
import { accepted, refused, type Answer, type Outcome } from './command/answer.ts';
import type { Command, CommandName, CommandOf, TimedCommand } from './command/command.ts';
import { RULES } from './command/commands.ts';
import { settleForCommand } from './settle.ts';
import { isPending, openRun, type RunState, type Undoable } from './state.ts';

/**
 * Gives a command at `at`: whole ms since the run was opened, never before an earlier command. Leaves, ends and
 * beginnings due by then happen first. A leave due within the next 250 ms counts as having left.
 */
export function apply(state: RunState, command: Command, at: Millis): Answer {
  const now = settleForCommand(state, at);
  const { steers } = RULES[command.do];
  if (now.phase === 'done' && steers) return refused(state, 'The session is done.');
  const outcome = carryOut(now, command, at, state);
  if (!outcome.ok) return refused(state, outcome.why);
  // The outcome is the run without the undone command: an undo itself leaves nothing to record.
  if (command.do === 'undo') return accepted(outcome.state);
  const recorded = record(outcome.state, command, at);
  return accepted(steers ? { ...recorded, undoable: withUndoable(state, command, at) } : recorded);
}

/** The whole run from its commands; a refused command changes nothing. */
export function fold(plan: Plan, clockPhase: Millis, commands: readonly TimedCommand[]): RunState {
  return commands.reduce((state, { command, at }) => apply(state, command, at).state, openRun(plan, clockPhase));
}

function carryOut<Name extends CommandName>(
  now: RunState,
  command: CommandOf<Name>,
  at: Millis,
  before: RunState,
): Outcome {
  return RULES[command.do].carryOut(now, command, at, before);
}

/** What every accepted command leaves in the state. R4: a lane with nothing pending is never stopped. */
function record(state: RunState, command: Command, at: Millis): RunState {
  const { steers, keepsTime } = RULES[command.do];
  return {
    ...state,
    ...(keepsTime ? { [keepsTime]: at } : {}),
    commandAt: at,
    steeredAt: steers ? at : state.steeredAt,
    lanes: state.lanes.map((lane) =>
      lane.stoppedBy !== null && !isPending(lane) ? { ...lane, stoppedBy: null } : lane,
    ),
  };
}

/** What can be undone after a command: the command, and those before it that are recent enough. */
function withUndoable(before: RunState, command: Command, at: Millis): readonly Undoable[] {
  const recent = before.undoable.filter((earlier) => at <= earlier.at + UNDO_FOR);
  const { takesLeavesAway = false } = RULES[command.do];
  return [...recent, { command, takesLeavesAway, at, before: { ...before, undoable: [] } }];
}
