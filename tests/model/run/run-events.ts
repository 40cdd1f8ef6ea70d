/*
 * What happens without the coach: leaves, the ends of stretches, stretches that begin by
 * themselves. One thing after the other, always the one that is due first.
 */

import {
  align,
  currentStretch,
  hasPending,
  isStopped,
  LEAD,
  ON_ITS_WAY,
  repsFrom,
  scenarioOf,
  tailAtEnd,
  tailOfLane,
  type LaneState,
  type RunState,
} from './run-state.ts';
import { roundsOf } from '../timetable/timetable-model.ts';
import { beginAfter, holdsUntimed, waitOf, walk } from '../timetable/stretches-model.ts';

/** Lets everything happen that is due up to and at a time, were nothing commanded. */
export function advance(state: RunState, until: number): void {
  for (;;) {
    const leaving = firstToLeave(state);
    const end = endOfStretch(state);
    if (leaving !== null && leaving.at <= until) leave(state, leaving.lane);
    else if (end !== null && end <= until) endStretch(state, end);
    else return;
  }
}

/** For a command at `t`, whatever leaves within the next moments has left, even out of a stretch still to begin. */
export function letGoWhatIsOnItsWay(state: RunState, t: number): void {
  const soon = t + ON_ITS_WAY;
  if ((firstToLeave(state)?.at ?? Infinity) > soon && (endOfStretch(state) ?? Infinity) > soon) return;
  const ahead: RunState = { ...state, lanes: structuredClone(state.lanes), leaves: [] };
  advance(ahead, soon);
  if (ahead.leaves.length > 0) advance(state, Math.max(...ahead.leaves.map((happened) => happened.atMs)));
}

/** T0 is set: every lane that is in takes part. */
export function beginStretch(state: RunState, index: number, t0: number): void {
  if (index !== state.current) state.startFrom = null;
  state.current = index;
  state.phase = 'going';
  state.t0 = t0;
  state.isHeld = false;
  state.linesLeft = new Set();
  const stretch = currentStretch(state);
  state.pauseEnd = t0 + stretch.ms;
  for (const lane of state.lanes) {
    takeNoPart(lane);
    if (!lane.isIn || stretch.kind !== 'swim') continue;
    const reps = repsFrom(stretch, lane.index, state.startFrom);
    const { offsets, length } = walk(reps);
    lane.takesPart = true;
    lane.hadRep = reps.length > 0;
    lane.pending = reps.map((rep, place) => ({ rep, leave: t0 + (offsets[place] ?? 0), again: false }));
    lane.end = t0 + length;
  }
}

/** The coach's word begins a swim on a round reading with a lead, a talk or break at once. */
export function beginOnWord(state: RunState, index: number, t: number): void {
  const isSwim = state.stretches[index]?.kind === 'swim';
  beginStretch(state, index, isSwim ? align(state, t + LEAD) : t);
}

/** Stretch `index` waits for the coach's word; with none there, the run is done. */
export function waitAt(state: RunState, index: number, t: number): void {
  state.lanes.forEach(takeNoPart);
  state.startFrom = null;
  state.isHeld = false;
  state.linesLeft = new Set();
  if (index >= state.stretches.length) {
    finishRun(state, t);
    return;
  }
  state.current = index;
  state.phase = 'waiting';
}

export function finishRun(state: RunState, t: number): void {
  state.lanes.forEach(takeNoPart);
  state.phase = 'done';
  state.doneAt = t;
  // What was waited for may have gone: the last that is left is where the run ended.
  state.current = Math.max(0, Math.min(state.current, state.stretches.length - 1));
}

/** [R5] When the greatest of the lanes' ends is, tails and all, whatever is pending; null where no lane takes part. */
export function greatestEnd(state: RunState): number | null {
  if (currentStretch(state).kind !== 'swim') return state.pauseEnd;
  const ends = state.lanes.filter((lane) => lane.takesPart).map((lane) => lane.end + tailAtEnd(lane));
  return ends.length > 0 ? Math.max(...ends) : null;
}

/**
 * With which command's lanes a lane is stopped that gets something to swim where it had nothing; null
 * where it is not stopped. With the last stop's where everyone who is still to leave is stopped; with
 * none but those of the command `number` where a Stop found nobody to leave.
 */
export function groupToJoin(state: RunState, number: number): number | null {
  const pending = state.lanes.filter(hasPending);
  if (pending.length === 0) return state.isHeld ? number : null;
  const stops = pending.map((lane) => lane.stoppedBy);
  return stops.includes(null) ? null : Math.max(...stops.map((stop) => stop ?? 0));
}

/** A lane's state between two stretches. */
export function takeNoPart(lane: LaneState): void {
  lane.takesPart = false;
  lane.hadRep = false;
  lane.pending = [];
  lane.lastLeft = null;
  lane.displacement = 0;
  lane.stoppedBy = null;
}

function firstToLeave(state: RunState): { at: number; lane: LaneState } | null {
  let first: { at: number; lane: LaneState } | null = null;
  for (const lane of state.lanes) {
    const next = lane.pending[0];
    if (next && !isStopped(lane) && (first === null || next.leave < first.at)) first = { at: next.leave, lane };
  }
  return first;
}

/** When the current stretch ends, as things stand; null while it is open, or waits for a word to end it. */
function endOfStretch(state: RunState): number | null {
  if (state.phase !== 'going' || state.lanes.some(hasPending)) return null;
  const isLast = state.current === state.stretches.length - 1;
  if (isLast && holdsUntimed(currentStretch(state))) return null;
  return Math.max(greatestEnd(state) ?? state.now, state.now);
}

function leave(state: RunState, lane: LaneState): void {
  const gone = lane.pending.shift();
  if (!gone) throw new RangeError(`lane ${lane.number} has nothing pending`);
  lane.lastLeft = gone;
  lane.lastTail = tailOfLane(lane);
  state.linesLeft.add(gone.rep.line);
  state.now = Math.max(state.now, gone.leave);
  const { rep } = gone;
  state.leaves.push({
    lane: lane.number,
    stretch: state.current,
    line: rep.line,
    rounds: roundsOf(rep),
    rep: rep.rep,
    of: rep.of,
    distance: rep.distance / 10,
    atMs: gone.leave,
  });
}

function endStretch(state: RunState, end: number): void {
  const scenario = scenarioOf(state);
  const ended = currentStretch(state);
  const next = state.stretches[state.current + 1];
  state.now = Math.max(state.now, end);
  state.lastEndAt = end;
  if (!next || state.isHeld || waitOf(next, ended, scenario) === 'call') {
    waitAt(state, state.current + 1, end);
    return;
  }
  const planned = beginAfter(end, next, ended, scenario, (time) => align(state, time));
  const warned = state.lastChangeAt === null ? planned : align(state, state.lastChangeAt + LEAD);
  beginStretch(state, state.current + 1, next.kind === 'swim' ? Math.max(planned, warned) : planned);
}
