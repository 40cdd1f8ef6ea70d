/*
 * The answer to a command: a new state, or one sentence saying why it was refused.
 */

import { lanesNamed } from '../../words/lanes.ts';
import type { LaneState, RunState } from '../state.ts';

/** The answer to a command. After a refusal, `state` is the state before it. */
export type Answer =
  | { readonly ok: true; readonly state: RunState }
  | { readonly ok: false; readonly state: RunState; readonly why: string };

/** The result of carrying a command out, before the command is recorded. */
export type Outcome = { readonly ok: true; readonly state: RunState } | { readonly ok: false; readonly why: string };

export function accepted(state: RunState): Answer {
  return { ok: true, state };
}

export function refused(state: RunState, why: string): Answer {
  return { ok: false, state, why };
}

export function done(state: RunState): Outcome {
  return { ok: true, state };
}

export function no(why: string): Outcome {
  return { ok: false, why };
}

/** The indexes of the lanes a command applies to, in lane order; or why it applies to none. */
export type Chosen =
  { readonly ok: true; readonly lanes: ReadonlySet<number> } | { readonly ok: false; readonly why: string };

/** How a refusal goes on after "No lane" (`none`) or "Lane 2" (`one`): "No lane is stopped.", "Lane 2 is not stopped." */
export interface Lacking {
  readonly none: string;
  readonly one: string;
}

const IN: Lacking = { none: 'is in', one: 'is out' };

/**
 * The lanes a command applies to: of those named, or of all that are in, the ones that `applies` accepts (all of them
 * if it is left out).
 * Refuses if a named lane does not exist or is out, or if no lane is left.
 */
export function choose(
  state: RunState,
  named: readonly number[] | undefined,
  applies: (lane: LaneState) => boolean = () => true,
  lacking: Lacking = IN,
): Chosen {
  for (const number of named ?? []) {
    const lane = state.lanes.find((candidate) => candidate.number === number);
    if (!lane) return { ok: false, why: `There is no lane ${number}.` };
    if (!lane.in) return { ok: false, why: `Lane ${number} is out.` };
  }
  const lanes = new Set<number>();
  state.lanes.forEach((lane, index) => {
    if (lane.in && (!named || named.includes(lane.number)) && applies(lane)) lanes.add(index);
  });
  if (lanes.size > 0) return { ok: true, lanes };
  if (named && named.length === 1) return { ok: false, why: `Lane ${named[0]} ${lacking.one}.` };
  return { ok: false, why: `${named ? `None of ${lanesNamed(named)}` : 'No lane'} ${lacking.none}.` };
}

export function changeLanes(
  state: RunState,
  chosen: ReadonlySet<number>,
  change: (lane: LaneState) => LaneState,
): RunState {
  return { ...state, lanes: state.lanes.map((lane, index) => (chosen.has(index) ? change(lane) : lane)) };
}

/** Changes every lane named, or every lane that is in, whatever it has pending. */
export function changeChosen(
  state: RunState,
  named: readonly number[] | undefined,
  change: (lane: LaneState) => LaneState,
): Outcome {
  const chosen = choose(state, named);
  return chosen.ok ? done(changeLanes(state, chosen.lanes, change)) : chosen;
}
