/*
 * Which lanes a command is for: those it names, or all that are in.
 */

import type { Command } from '../run/command.ts';
import type { LaneState, RunState } from '../run/run-state.ts';

/** Why not, in a few words for whoever looks into a difference; null where it was done. */
export type Refusal = string | null;

/** Named lanes must be there and in; for `lane-in`, out. */
export function faultInLanes(state: RunState, command: Command): Refusal {
  const mustBeIn = command.do !== 'lane-in';
  const wrong = (command.lanes ?? []).find((number) => {
    const lane = state.lanes.find((one) => one.number === number);
    return !lane || lane.isIn !== mustBeIn;
  });
  return wrong === undefined ? null : `lane ${wrong} is not there or not ${mustBeIn ? 'in' : 'out'}`;
}

/** The lanes that a command names, or all that are in. */
export function lanesOf(state: RunState, command: Command): LaneState[] {
  const { lanes } = command;
  return state.lanes.filter((lane) => (lanes ? lanes.includes(lane.number) : lane.isIn));
}

/** Does it to those of the lanes to which it applies; refused where it applies to none. */
export function toLanes(
  state: RunState,
  command: Command,
  applies: (lane: LaneState) => boolean,
  change: (lanes: LaneState[]) => void,
): Refusal {
  const lanes = lanesOf(state, command).filter(applies);
  if (lanes.length === 0) return `${command.do} applies to none of the lanes`;
  change(lanes);
  return null;
}
