/*
 * The run as a fold: a state and a command give the next state, or a refusal that changes nothing.
 * Nothing here reads a clock; every time is handed in.
 */

import type { Millis } from '../units.ts';
import type { Plan } from '../plan/plan.ts';
import { UNDO_FOR } from './align.ts';
import { accepted, refused, type Answer, type Outcome } from './answer.ts';
import type { Command, CommandName, CommandOf, TimedCommand } from './command.ts';
import { RULES } from './commands.ts';
import { settleForCommand } from './settle.ts';
import { isPending, openRun, type RunState, type Undoable } from './state.ts';

/**
 * A command given at `at` (ms since the run was opened, whole, never before an earlier command).
 * Leaves, ends and beginnings due by then come first; a leave due within a quarter of a second has
 * left as far as the command is concerned.
 */
export function apply(state: RunState, command: Command, at: Millis): Answer {
  const now = settleForCommand(state, at);
  const { steers } = RULES[command.do];
  if (now.phase === 'done' && steers) return refused(state, 'The session is done.');
  const outcome = carryOut(now, command, at, state);
  if (!outcome.ok) return refused(state, outcome.why);
  // It has made another run of it, in which it was not given.
  if (command.do === 'undo') return accepted(outcome.state);
  const recorded = record(outcome.state, command, at);
  return accepted(steers ? { ...recorded, undoable: withUndoable(state, command, at) } : recorded);
}

/** The whole run from its commands; those that are refused change nothing. */
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

/** What every accepted command leaves behind; R4: a lane with nothing pending is never stopped. */
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

/** What can be undone after a command: those before it only while they are recent. */
function withUndoable(before: RunState, command: Command, at: Millis): readonly Undoable[] {
  const recent = before.undoable.filter((earlier) => at <= earlier.at + UNDO_FOR);
  const { takesLeavesAway = false } = RULES[command.do];
  return [...recent, { command, takesLeavesAway, at, before: { ...before, undoable: [] } }];
}
