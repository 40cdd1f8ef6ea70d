/*
 * The run as a fold: a state and a command give the next state, or a refusal that changes nothing.
 * Nothing here reads a clock; every time is handed in.
 */

import type { Millis } from '../units.ts';
import type { Plan } from '../plan/plan.ts';
import type { Command, TimedCommand } from './command.ts';
import { UNDO_FOR } from './align.ts';
import { accepted, refused, type Answer, type Outcome } from './answer.ts';
import { cut } from './cut.ts';
import { gap, laneIn, laneOut, mark, swimmers } from './squad.ts';
import { interval, rejoin, repeat, resume, shift, sitOut, skip, stop } from './lane-command.ts';
import { rewrite } from './rewrite.ts';
import { settleForCommand } from './settle.ts';
import { finish, goTo, moveOn, restart, start } from './stretch-command.ts';
import { isPending, openRun, type RunState, type Undoable } from './state.ts';
import { undo } from './undo.ts';

/**
 * A command given at `at` (ms since the run was opened, whole, never before an earlier command).
 * Leaves, ends and beginnings due by then come first; a leave due within a quarter of a second has
 * left as far as the command is concerned.
 */
export function apply(state: RunState, command: Command, at: Millis): Answer {
  const now = settleForCommand(state, at);
  if (command.do === 'undo') return undo(state, now, at);
  if (now.phase === 'done' && command.do !== 'mark') return refused(state, 'The session is done.');
  const outcome = carryOut(now, command, at);
  if (!outcome.ok) return refused(state, outcome.why);
  const recorded = record(outcome.state, command, at);
  return accepted(command.do === 'mark' ? recorded : { ...recorded, undoable: withUndoable(state, command, at) });
}

/** The whole run from its commands; those that are refused change nothing. */
export function fold(plan: Plan, clockPhase: Millis, commands: readonly TimedCommand[]): RunState {
  return commands.reduce((state, { command, at }) => apply(state, command, at).state, openRun(plan, clockPhase));
}

function carryOut(now: RunState, command: Exclude<Command, { do: 'undo' }>, at: Millis): Outcome {
  switch (command.do) {
    case 'start':
      return start(now, at);
    case 'stop':
      return stop(now, command.lanes);
    case 'resume':
      return resume(now, command.lanes, at);
    case 'rejoin':
      return rejoin(now, command.lanes, at);
    case 'skip':
      return skip(now, command.lanes);
    case 'sit-out':
      return sitOut(now, command.lanes);
    case 'repeat':
      return repeat(now, command.lanes, at);
    case 'shift':
      return shift(now, command.lanes, command.seconds, at);
    case 'interval':
      return interval(now, command.lanes, command.seconds, at);
    case 'cut':
      return cut(now, command.line, command.n, at);
    case 'rewrite':
      return rewrite(now, command.text, at);
    case 'go-to':
      return goTo(now, command, at);
    case 'move-on':
      return moveOn(now, at);
    case 'restart':
      return restart(now, at);
    case 'lane-out':
      return laneOut(now, command.lanes);
    case 'lane-in':
      return laneIn(now, command.lanes, at);
    case 'swimmers':
      return swimmers(now, command.lanes, command.n);
    case 'gap':
      return gap(now, command.lanes, command.seconds);
    case 'mark':
      return mark(now, command.lanes, command.words, at);
    case 'finish':
      return finish(now, at);
  }
}

/** What every accepted command leaves behind; R4: a lane with nothing pending is never stopped. */
function record(state: RunState, command: Command, at: Millis): RunState {
  return {
    ...state,
    commandAt: at,
    startedAt: command.do === 'start' ? at : state.startedAt,
    stoppedAt: command.do === 'stop' ? at : state.stoppedAt,
    steeredAt: command.do === 'mark' ? state.steeredAt : at,
    resumedAt: command.do === 'resume' ? at : state.resumedAt,
    lanes: state.lanes.map((lane) =>
      lane.stoppedBy !== null && !isPending(lane) ? { ...lane, stoppedBy: null } : lane,
    ),
  };
}

/** What can be undone after a command: those before it only while they are recent. */
function withUndoable(before: RunState, command: Command, at: Millis): readonly Undoable[] {
  const recent = before.undoable.filter((earlier) => at <= earlier.at + UNDO_FOR);
  return [...recent, { command, at, before: { ...before, undoable: [] } }];
}
