/*
 * Commands that move or drop what single lanes have pending.
 */

import type { Millis } from '../units.ts';
import { HOUR, SECOND } from '../units.ts';
import type { Rep, Stretch } from '../plan/plan.ts';
import { align, LEAD } from './align.ts';
import { IN, changeLanes, choose, done, no, type Outcome, type Lacking } from './answer.ts';
import { retime, withTimes } from '../plan/retime.ts';
import { nextWaits } from './settle.ts';
import { currentStretch, isPending, nextLeave, type LaneState, type RunState } from './state.ts';

type Named = readonly number[] | undefined;

const LEFT: Lacking = { none: 'has a rep still to leave', one: 'has no rep still to leave' };
const GOING: Lacking = {
  none: 'has a rep still to leave and is not stopped',
  one: 'has no rep still to leave, or is stopped already',
};
const STOPPED: Lacking = { none: 'is stopped', one: 'is not stopped' };
const REPEATABLE: Lacking = {
  none: 'has left a rep here that could be repeated',
  one: 'has left no rep here that could be repeated',
};

/** With no lanes named what follows waits too: nobody is sent until the coach says so. */
export function stop(state: RunState, named: Named): Outcome {
  if (state.phase !== 'going') return no(notGoing(state));
  const stops = state.stops + 1;
  if (currentStretch(state).kind !== 'swim') {
    return named
      ? no('Nobody swims now: lanes cannot be stopped one by one.')
      : done({ ...state, stops, heldAfter: true });
  }
  const chosen = choose(state, named, (lane) => isPending(lane) && lane.stoppedBy === null, GOING);
  if (!chosen.ok) return named || !beginsByItself(state) ? chosen : done({ ...state, stops, heldAfter: true });
  const stopped = changeLanes(state, chosen.lanes, (lane) => ({ ...lane, stoppedBy: stops }));
  return done({ ...stopped, stops, heldAfter: state.heldAfter || !named });
}

/** Whether something follows that would begin without the coach's word. */
function beginsByItself(state: RunState): boolean {
  return state.index + 1 < state.stretches.length && !nextWaits(state);
}

export function resume(state: RunState, named: Named, t: Millis): Outcome {
  const chosen = choose(state, named, isStopped, STOPPED);
  if (chosen.ok) return done({ ...resumeLanes(state, chosen.lanes, t), heldAfter: false });
  const holdsOnlyWhatFollows = state.heldAfter && !state.lanes.some(isStopped);
  return holdsOnlyWhatFollows && !named ? done({ ...state, heldAfter: false }) : chosen;
}

/**
 * The chosen lanes, all of them stopped, going again: the lanes of one stop keep their places to each
 * other. A stop ended the lead before their next leave costs nothing, a later one restarts them on a
 * round reading.
 */
export function resumeLanes(state: RunState, chosen: ReadonlySet<number>, t: Millis): RunState {
  const earliest = new Map<number, Millis>();
  state.lanes.forEach((lane, index) => {
    if (lane.stoppedBy === null || !chosen.has(index)) return;
    earliest.set(lane.stoppedBy, Math.min(nextLeave(lane), earliest.get(lane.stoppedBy) ?? Infinity));
  });
  return changeLanes(state, chosen, (lane) => {
    if (lane.stoppedBy === null) return lane;
    const first = earliest.get(lane.stoppedBy)!;
    const delay = first >= t + LEAD ? 0 : align(state, t + LEAD) - first;
    return { ...displaced(lane, delay), stoppedBy: null };
  });
}

export function rejoin(state: RunState, named: Named, t: Millis): Outcome {
  const chosen = choose(state, named, isStopped, STOPPED);
  if (!chosen.ok) return chosen;
  const back = changeLanes(state, chosen.lanes, (lane) => {
    const missed = lane.reps.findIndex((rep, index) => index >= lane.next && lane.origin + rep.offset >= t + LEAD);
    return { ...lane, stoppedBy: null, next: missed < 0 ? lane.reps.length : missed };
  });
  const somethingLeft = back.lanes.some((lane, index) => chosen.lanes.has(index) && isPending(lane));
  return done({ ...back, heldAfter: state.heldAfter && !somethingLeft });
}

export function skip(state: RunState, named: Named): Outcome {
  const chosen = choose(state, named, isPending, LEFT);
  if (!chosen.ok) return chosen;
  return done(
    changeLanes(state, chosen.lanes, (lane) => {
      const sooner = lane.reps[lane.next]!.interval;
      return { ...lane, next: lane.next + 1, origin: lane.origin - sooner, end: lane.end - sooner };
    }),
  );
}

export function sitOut(state: RunState, named: Named): Outcome {
  const chosen = choose(state, named, isPending, LEFT);
  return chosen.ok ? done(changeLanes(state, chosen.lanes, (lane) => ({ ...lane, next: lane.next + 1 }))) : chosen;
}

export function repeat(state: RunState, named: Named, t: Millis): Outcome {
  if (state.phase !== 'going') return no(notGoing(state));
  const chosen = choose(state, named, (lane) => lane.leftHere, REPEATABLE);
  if (!chosen.ok) return chosen;
  return done(changeLanes(state, chosen.lanes, (lane) => repeated(state, lane, t)));
}

export function shift(state: RunState, named: Named, seconds: number, t: Millis): Outcome {
  if (state.phase !== 'going') return no(notGoing(state));
  const by = seconds * SECOND;
  if (currentStretch(state).kind !== 'swim') return shiftPause(state, named, by, t);
  const chosen = choose(state, named, isPending, LEFT);
  if (!chosen.ok) return chosen;
  return unlessTooSoon(
    state,
    changeLanes(state, chosen.lanes, (lane) => displaced(lane, by)),
    t,
  );
}

export function interval(state: RunState, named: Named, seconds: number, t: Millis): Outcome {
  if (state.phase !== 'going') return no(notGoing(state));
  const chosen = choose(state, named, isPending, LEFT);
  if (!chosen.ok) return chosen;
  const by = seconds * SECOND;
  let stretches = state.stretches;
  const retimed = new Set(state.retimed);
  for (const index of chosen.lanes) {
    const lane = state.lanes[index]!;
    const line = lane.reps[lane.next]!.set.line;
    const changed = withLongerIntervals(stretches, state.index, index, line, by);
    if (!changed || !staysInBounds(lane, line, by)) {
      return no(`An interval of lane ${lane.number} would not stay above 0 and at most 1:00:00.`);
    }
    stretches = changed;
    retimed.add(line);
  }
  const lanes = changeLanes(state, chosen.lanes, (lane) => withLongerPending(lane, by));
  return unlessTooSoon(state, { ...lanes, stretches, retimed }, t);
}

/**
 * Refuses a change that would send a lane that is not stopped off sooner than it was shown, with less
 * than the lead of warning.
 */
export function unlessTooSoon(before: RunState, after: RunState, t: Millis): Outcome {
  const hurried = after.lanes.find(
    (lane, index) =>
      lane.stoppedBy === null && nextLeave(lane) < nextLeave(before.lanes[index]!) && nextLeave(lane) < t + LEAD,
  );
  return hurried ? no(`Too soon: lane ${hurried.number} would get less than 10 s of warning.`) : done(after);
}

/**
 * The number of the stop that a lane with nothing pending joins when it gets reps: the last one's, where
 * it holds everyone who has something pending, or a Stop holds what follows; null where it goes off.
 */
export function stopToJoin(state: RunState): number | null {
  const pending = state.lanes.filter(isPending);
  if (pending.length === 0) return state.heldAfter ? state.stops : null;
  return pending.every(isStopped) ? Math.max(...pending.map((lane) => lane.stoppedBy!)) : null;
}

export function isStopped(lane: LaneState): boolean {
  return lane.stoppedBy !== null;
}

function displaced(lane: LaneState, by: Millis): LaneState {
  return { ...lane, origin: lane.origin + by, end: lane.end + by, displacement: lane.displacement + by };
}

/** The lane's last rep swum again, next. */
function repeated(state: RunState, lane: LaneState, t: Millis): LaneState {
  const { rep } = lane.last!;
  if (isPending(lane)) {
    // In the place of the next leave; that one and all later ones move on by the rep's interval.
    const offset = lane.reps[lane.next]!.offset - rep.interval;
    const reps = [{ ...rep, leftover: 0, again: true as const, offset }, ...lane.reps.slice(lane.next)];
    return { ...lane, reps, next: 0, origin: lane.origin + rep.interval, end: lane.end + rep.interval };
  }
  const leave = Math.max(lane.end, align(state, t + LEAD));
  const reps = [{ ...rep, leftover: 0, again: true as const, offset: 0 }];
  return { ...lane, reps, next: 0, origin: leave, end: leave + rep.interval };
}

/** A talk or break ends later (or sooner) for everyone; before it has begun, its beginning moves too. */
function shiftPause(state: RunState, named: Named, by: Millis, t: Millis): Outcome {
  const chosen = choose(state, named, () => true, IN);
  if (!chosen.ok) return chosen;
  const ahead = state.t0 !== null && t < state.t0;
  const pauseEnd = state.pauseEnd + by;
  if (pauseEnd <= t) return no('It would be over already: use Start or Move on.');
  if (!ahead) return done({ ...state, pauseEnd });
  const t0 = state.t0 + by;
  return t0 < t ? no('It would have begun already: use Start.') : done({ ...state, pauseEnd, t0 });
}

/**
 * The stretches from the current one on with the lane's intervals of a line longer; null where one
 * would leave its bounds.
 */
function withLongerIntervals(
  stretches: readonly Stretch[],
  current: number,
  laneIndex: number,
  line: number,
  by: Millis,
): readonly Stretch[] | null {
  let fits = true;
  const longer = (rep: Rep): Millis => {
    if (rep.set.line !== line) return rep.interval;
    fits &&= rep.interval + by > 0 && rep.interval + by <= HOUR;
    return rep.interval + by;
  };
  const changed = stretches.map((stretch, index) => {
    const own = index >= current ? stretch.lanes[laneIndex] : undefined;
    if (!own || !own.reps.some(({ set }) => set.line === line)) return stretch;
    const lanes = [...stretch.lanes];
    lanes[laneIndex] = retime(own.reps, longer);
    return { ...stretch, lanes };
  });
  return fits ? changed : null;
}

/** Whether what the lane still has of a line, a rep swum again among it, can have intervals so much longer. */
function staysInBounds(lane: LaneState, line: number, by: Millis): boolean {
  const left = lane.leftHere && lane.last ? [lane.last.rep] : [];
  return [...left, ...lane.reps.slice(lane.next)].every(
    ({ set, interval }) => set.line !== line || (interval + by > 0 && interval + by <= HOUR),
  );
}

/** What the lane has pending with the intervals of its next rep's line longer, the one now running too. */
function withLongerPending(lane: LaneState, by: Millis): LaneState {
  const line = lane.reps[lane.next]!.set.line;
  const running = lane.leftHere && lane.last!.rep.set.line === line;
  let later = running ? by : 0;
  const reps = lane.reps.slice(lane.next).map((rep) => {
    const offset = rep.offset + later;
    const interval = rep.set.line === line ? rep.interval + by : rep.interval;
    later += interval - rep.interval;
    return rep.again ? { ...rep, offset, interval } : withTimes(rep, offset, interval);
  });
  const last = running
    ? { ...lane.last!, rep: { ...lane.last!.rep, interval: lane.last!.rep.interval + by } }
    : lane.last;
  return { ...lane, reps, next: 0, end: lane.end + later, last };
}

export function notGoing(state: RunState): string {
  return state.phase === 'done' ? 'The session is done.' : "Waiting for the coach's word: nothing is going.";
}
