/*
 * What the commands that leave a stretch early share.
 */

import type { Millis } from '../../units.ts';
import { BOUNCE } from '../align.ts';
import { no, type Outcome } from './answer.ts';
import { isEmpty, type Place } from '../place.ts';
import { waitAt, withoutWaiting } from '../settle.ts';
import type { RunState } from '../state.ts';

export function endedJustNow(state: RunState, t: Millis): Outcome | null {
  return t < state.endedAt + BOUNCE
    ? no('The stretch has just ended by itself: press again in a moment if you still mean it.')
    : null;
}

/** Forgets a start that is still counting down: the clock goes on from the start before it. */
export function beforeCountdown(state: RunState, t: Millis): RunState {
  return state.phase === 'going' && t < state.t0! ? { ...state, t0: state.t0Before } : state;
}

/** Waits at a stretch, whole again. Removes it, or any stretch after it, if cuts have left nothing in it. */
export function waitAtWhatIsLeft(state: RunState, index: number, t: Millis, from: Place | null = null): RunState {
  const stretches = state.stretches.filter((stretch, at) => at <= index || !isEmpty(stretch));
  const waiting = waitAt({ ...state, stretches }, index, from);
  return isEmpty(stretches[index]!) ? withoutWaiting(waiting, t) : waiting;
}
