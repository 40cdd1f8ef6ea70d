/*
 * Commands about the stretch as a whole: its start, and the ways out of it.
 */

import type { Millis } from '../units.ts';
import { align, BOUNCE, LEAD } from './align.ts';
import { done, no, type Outcome } from './answer.ts';
import { unlessTooSoon } from './lane-command.ts';
import { isEmpty, placeIn, type Place } from './place.ts';
import { begin, done as doneAt, waitAt, withoutWaiting } from './settle.ts';
import { allStopped, isPending, currentStretch, type RunState } from './state.ts';
import { waitsFor, type Stretch } from '../plan/plan.ts';

export function start(state: RunState, t: Millis): Outcome {
  if (t < state.startedAt + BOUNCE) return no('Started just now: Start is taken again 3 s after it.');
  if (t < state.stoppedAt + BOUNCE) return no('Stopped just now: Start is taken again 3 s after it.');
  if (state.phase === 'waiting') return done(beginByHand(state, state.index, t));
  if (state.phase === 'going' && t < state.t0!) return startSooner(state, t);
  return startNext(state, t);
}

const ALL_STOPPED = 'All lanes are stopped: use Resume, or Move on.';

/** A new T0 for a stretch on the coach's word: a swim gets the lead's warning and a round reading, a talk or break none. */
function beginByHand(state: RunState, index: number, t: Millis): RunState {
  return begin(state, index, state.stretches[index]!.kind === 'swim' ? align(state, t + LEAD) : t);
}

/** During a countdown: the start comes forward, and everything with it. */
function startSooner(state: RunState, t: Millis): Outcome {
  const t0 = currentStretch(state).kind === 'swim' ? align(state, t + LEAD) : t;
  const by = t0 - state.t0!;
  if (by >= 0) {
    return no(allStopped(state) ? ALL_STOPPED : 'It cannot start sooner: everyone gets 10 s of warning.');
  }
  const lanes = state.lanes.map((lane) => ({ ...lane, origin: lane.origin + by, end: lane.end + by }));
  return unlessTooSoon(state, { ...state, t0, pauseEnd: state.pauseEnd + by, lanes }, t);
}

/** The next stretch, where nobody in this one is on their way to a leave. */
function startNext(state: RunState, t: Millis): Outcome {
  if (state.index + 1 >= state.stretches.length) return no('Nothing follows: use Finish.');
  const open = state.lanes.filter(isPending);
  if (open.some((lane) => lane.stoppedBy === null)) return no('Lanes are still going: Stop or Move on first.');
  const someoneIsThrough = state.lanes.some((lane) => lane.takesPart && lane.leftHere && !isPending(lane));
  if (open.length > 0 && !someoneIsThrough) return no(ALL_STOPPED);
  return done(beginByHand({ ...state, from: null }, state.index + 1, t));
}

export function moveOn(state: RunState, t: Millis): Outcome {
  const bounced = endedJustNow(state, t);
  if (bounced) return bounced;
  const index = state.index + 1;
  const next = state.stretches[index];
  const passed = beforeCountdown(state, t);
  if (!next) return done(doneAt(passed, t));
  const goesOn = state.phase === 'going' && next.kind !== 'swim' && followsAtOnce(next, currentStretch(state));
  return done(goesOn ? begin({ ...passed, from: null }, index, t) : waitAt(passed, index));
}

export function restart(state: RunState, t: Millis): Outcome {
  const bounced = endedJustNow(state, t);
  if (bounced) return bounced;
  if (state.phase === 'going') return done(waitAtWhatIsLeft(beforeCountdown(state, t), state.index, t));
  if (state.index === 0) return no('This is the first stretch: there is none before it.');
  return done(waitAtWhatIsLeft(state, state.index - 1, t));
}

/** Waits at the stretch that holds the rep in any lane; each lane will start with its first rep not before it. */
export function goTo(
  state: RunState,
  target: { readonly line: number; readonly rounds?: readonly number[]; readonly rep: number },
  t: Millis,
): Outcome {
  for (let index = 0; index < state.stretches.length; index++) {
    const from = placeIn(state.stretches[index]!, target);
    if (from) return done(waitAtWhatIsLeft(beforeCountdown(state, t), index, t, from));
  }
  return no(`Line ${target.line} has no such rep in the session as it stands.`);
}

export function finish(state: RunState, t: Millis): Outcome {
  return done(doneAt(beforeCountdown(state, t), t));
}

function endedJustNow(state: RunState, t: Millis): Outcome | null {
  return t < state.endedAt + BOUNCE ? no('The stretch ended by itself just now.') : null;
}

/** Whether a talk or break goes on by itself at once after what was before it (not at the start of a part, nor after a wait). */
function followsAtOnce(next: Stretch, before: Stretch): boolean {
  return next.partIndex === before.partIndex && waitsFor(next, before, false) === 'auto';
}

/** A start that was still counting down never was: the clock goes on from the one before it. */
function beforeCountdown(state: RunState, t: Millis): RunState {
  return state.phase === 'going' && t < state.t0! ? { ...state, t0: state.t0Before } : state;
}

/** Waiting at a stretch, whole again; whatever cuts have left empty goes, of what is no longer begun. */
function waitAtWhatIsLeft(state: RunState, index: number, t: Millis, from: Place | null = null): RunState {
  const stretches = state.stretches.filter((stretch, at) => at <= index || !isEmpty(stretch));
  const waiting = waitAt({ ...state, stretches }, index, from);
  return isEmpty(stretches[index]!) ? withoutWaiting(waiting, t) : waiting;
}
