/*
 * Compares what a screen showed when a command was given with how things stand when the command arrives. If a lane
 * leaves while the coach's finger is on its way, the command must not change the wrong rep.
 */

import type { Millis } from '../../units.ts';
import { roundNumbers } from '../../words/round.ts';
import type { Command, CommandName, CommandOf } from './command.ts';
import { RULES } from './commands.ts';
import { settleForCommand } from '../settle.ts';
import { countNow } from '../cuts/standing.ts';
import type { LaneState, Pending, RunState } from '../state.ts';

/** A rep as a screen names it: its line, its round numbers (outermost first) and its number within the round. */
export interface ExpectedRep {
  readonly line: number;
  readonly rounds: readonly number[];
  readonly rep: number;
}

/** By lane number, the rep that a screen showed as the lane's next; null if it showed none. */
export type ExpectedReps = Readonly<Record<string, ExpectedRep | null>>;

/**
 * One sentence saying what has changed, if the command would drop, move or repeat a rep in a lane whose next rep is
 * no longer the one that was expected; else null. Lanes that the command does not touch, and lanes missing from `expected`,
 * are not checked. A leave due within the next 250 ms counts as having left.
 */
export function changedSince(state: RunState, command: Command, expected: ExpectedReps, at: Millis): string | null {
  const touches = touchedBy(command);
  if (!touches) return null;
  const now = settleForCommand(state, at);
  const changes: string[] = [];
  now.lanes.forEach((lane, index) => {
    const shown = expected[String(lane.number)];
    if (shown === undefined || !lane.in || !touches(lane)) return;
    const next = lane.reps[lane.next];
    if (!isThat(next, shown)) changes.push(changeOf(now, lane, index, next));
  });
  return changes.length > 0 ? `Nothing was changed: meanwhile ${changes.join(', ')}.` : null;
}

/** Whether a screen must send with this command what it showed. */
export function touchesReps(command: Command): boolean {
  return RULES[command.do].touches !== null;
}

/** Tells whether the command would change the reps of a lane; null for a command that is not about single reps. */
function touchedBy<Name extends CommandName>(command: CommandOf<Name>): ((lane: LaneState) => boolean) | null {
  const { touches } = RULES[command.do];
  const lanes = 'lanes' in command ? (command.lanes as readonly number[] | undefined) : undefined;
  return touches && ((lane) => (lanes === undefined || lanes.includes(lane.number)) && touches(lane, command));
}

function isThat(next: Pending | undefined, shown: ExpectedRep | null): boolean {
  if (!next || !shown) return !next && !shown;
  const { rounds, line } = next.set;
  return (
    line === shown.line &&
    next.rep === shown.rep &&
    rounds.length === shown.rounds.length &&
    rounds.every(({ round }, depth) => round === shown.rounds[depth])
  );
}

function changeOf(state: RunState, { number }: LaneState, index: number, next: Pending | undefined): string {
  if (!next) return `lane ${number} has no more reps to come`;
  const { set, rep } = next;
  const { of } = countNow(state, next, index);
  const round = roundNumbers(set.rounds);
  return `lane ${number} has moved on to rep ${rep} of ${of} of line ${set.line}${round === '' ? '' : ` in ${round}`}`;
}
