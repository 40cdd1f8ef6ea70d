/*
 * Three soft pips before a leave, so that swimmers at the wall are ready for it.
 */

import { SECOND, type Millis } from '../units.ts';
import { leavesOf } from '../run/record.ts';
import { settle } from '../run/settle.ts';
import { departedHere, firstOf, isPending, type RunState } from '../run/state.ts';
import type { CueChoice } from './cue-choice.ts';
import type { Tone } from './tones.ts';

/** Seconds before the leave at which pips sound. */
const PIPS = [3, 2, 1];

/** Two sounds closer together than this are heard as one. */
export const APART: Millis = SECOND / 2;

/** How long before a leave its count begins. */
export const COUNT: Millis = PIPS[0]! * SECOND;

/** No other tone may sound within this time before a leave that pips count in. */
export const CLEAR: Millis = COUNT + APART;

/**
 * The times of the pips before a leave: three or none, because swimmers would miscount with one missing. There are none
 * if another tone sounds between half a second before the first pip and the leave. `tones` has all tones from then on.
 */
export function pipsBefore(state: RunState, leave: Tone, tones: readonly Tone[], choice: CueChoice): readonly Millis[] {
  return isCountedIn(state, leave, tones, choice) ? PIPS.map((seconds) => leave.at - seconds * SECOND) : [];
}

function isCountedIn(state: RunState, leave: Tone, tones: readonly Tone[], choice: CueChoice): boolean {
  if (leave.kind !== 'leave' || choice.pips === 'never') return false;
  if (tones.some(({ at }) => at >= leave.at - CLEAR && at < leave.at)) return false;
  return choice.pips === 'always' || isRestart(settle(state, leave.at), leave, choice.muted);
}

/**
 * Whether every lane with reps to come leaves now, and none has left since the stretch began or lanes were resumed.
 * `state` is settled at the leave.
 */
function isRestart(state: RunState, { at, lanes }: Tone, muted: readonly number[]): boolean {
  const together = state.lanes.every(
    (lane) =>
      !lane.takesPart ||
      lane.stoppedBy !== null ||
      !isPending(lane) ||
      lanes.includes(lane.number) ||
      muted.includes(lane.number),
  );
  if (!together) return false;
  const isFirst = (lane: number, left: Millis): boolean => left >= at || muted.includes(lane);
  return (
    departedHere(state).every((leaves) => isFirst(leaves.lane, firstOf(leaves))) ||
    leavesOf(state, state.resumedAt).every((leave) => isFirst(leave.lane, leave.at))
  );
}
