/*
 * What the commands that leave a stretch before it is over share.
 */

import type { Millis } from '../units.ts';
import { BOUNCE } from './align.ts';
import { no, type Outcome } from './answer.ts';
import { isEmpty, type Place } from './place.ts';
import { waitAt, withoutWaiting } from './settle.ts';
import type { RunState } from './state.ts';

export function endedJustNow(state: RunState, t: Millis): Outcome | null {
  return t < state.endedAt + BOUNCE ? no('The stretch ended by itself just now.') : null;
}

/** A start that was still counting down never was: the clock goes on from the one before it. */
export function beforeCountdown(state: RunState, t: Millis): RunState {
  return state.phase === 'going' && t < state.t0! ? { ...state, t0: state.t0Before } : state;
}

/** Waiting at a stretch, whole again; whatever cuts have left empty goes, of what is no longer begun. */
export function waitAtWhatIsLeft(state: RunState, index: number, t: Millis, from: Place | null = null): RunState {
  const stretches = state.stretches.filter((stretch, at) => at <= index || !isEmpty(stretch));
  const waiting = waitAt({ ...state, stretches }, index, from);
  return isEmpty(stretches[index]!) ? withoutWaiting(waiting, t) : waiting;
}
