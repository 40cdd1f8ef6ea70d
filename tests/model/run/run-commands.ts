/*
 * The commands of a live run, each by its rule. A command is carried out on a state
 * that is thrown away if it is refused, so that rules about what would come of it can be read off
 * what did come of it.
 */

import { faultInFields, type Command } from './command.ts';
import { faultInLanes, lanesOf, toLanes, type Refusal } from '../invent/named-lanes.ts';
import { cut } from './run-cut.ts';
import { goTo, moveOn, restart } from './run-moves.ts';
import { rewrite, type KnownTexts } from './run-rewrite.ts';
import { rejoin, resume, stop } from './run-stop.ts';
import { beginOnWord, finishRun, groupToJoin, takeNoPart } from './run-events.ts';
import {
  align,
  currentStretch,
  hasPending,
  isGoingPause,
  isGoingSwim,
  isStopped,
  LEAD,
  moveLeaves,
  nextLeave,
  repsFrom,
  type LaneState,
  type RunState,
} from './run-state.ts';
import { walk } from '../timetable/stretches-model.ts';

const START_GUARD = 3000;
const LONGEST_INTERVAL = 3_600_000;

/** Carries out one command, but for `undo`, at a time up to which everything due has happened. */
export function perform(state: RunState, command: Command, number: number, texts: KnownTexts): Refusal {
  const refusal =
    faultInFields(command) ??
    (state.phase === 'done' && command.do !== 'mark' ? 'the run is done' : null) ??
    faultInLanes(state, command) ??
    carryOut(state, command, number, texts);
  if (refusal !== null) return refusal;
  if (command.do !== 'mark') state.lastChangeAt = command.atMs;
  if (command.do === 'start' || command.do === 'stop') state.lastStartOrStopAt = command.atMs;
  for (const lane of state.lanes) if (!hasPending(lane)) lane.stoppedBy = null;
  return null;
}

function carryOut(state: RunState, command: Command, number: number, texts: KnownTexts): Refusal {
  const t = command.atMs;
  switch (command.do) {
    case 'start':
      return start(state, t);
    case 'stop':
      return stop(state, command, number);
    case 'resume':
      return resume(state, command);
    case 'rejoin':
      return toLanes(state, command, isStopped, (lanes) => rejoin(state, lanes, t));
    case 'skip':
      return toLanes(state, command, hasPending, (lanes) => lanes.forEach(skip));
    case 'sit-out':
      return toLanes(state, command, hasPending, (lanes) => lanes.forEach((lane) => lane.pending.shift()));
    case 'repeat':
      return toLanes(state, command, hasLeft, (lanes) => lanes.forEach((lane) => repeat(state, lane, t)));
    case 'shift':
      return shift(state, command);
    case 'interval':
      return unlessTooSoon(state, t, () => changeIntervals(state, command));
    case 'cut':
      return cut(state, command);
    case 'rewrite':
      return unlessTooSoon(state, t, () => rewrite(state, command, number, texts));
    case 'go-to':
      return goTo(state, command);
    case 'move-on':
      return moveOn(state, t);
    case 'restart':
      return restart(state, t);
    case 'lane-out':
      return laneOut(state, command);
    case 'lane-in':
      return laneIn(state, command, number);
    case 'swimmers':
      return toLanes(state, command, always, (lanes) => lanes.forEach((lane) => (lane.swimmers = command.n ?? 1)));
    case 'gap':
      return toLanes(state, command, always, (lanes) =>
        lanes.forEach((lane) => (lane.gap = (command.seconds ?? 1) * 1000)),
      );
    case 'finish':
      finishRun(state, t);
      return null;
    case 'mark':
      return null;
    default:
      throw new Error(`the model does not know ${command.do}`);
  }
}

const always = (): boolean => true;
const hasLeft = (lane: LaneState): boolean => lane.lastLeft !== null;

/** Too soon: in a lane not stopped, the next leave would come earlier than it was, and before the lead is over. */
function unlessTooSoon(state: RunState, t: number, change: () => Refusal): Refusal {
  const before = new Map(state.lanes.map((lane) => [lane, nextLeave(lane)]));
  const refusal = change();
  if (refusal !== null) return refusal;
  const tooSoon = state.lanes.find((lane) => {
    const [was, is] = [before.get(lane) ?? null, nextLeave(lane)];
    return !isStopped(lane) && was !== null && is !== null && is < was && is < t + LEAD;
  });
  return tooSoon ? `too soon for lane ${tooSoon.number}` : null;
}

function start(state: RunState, t: number): Refusal {
  if (state.lastStartOrStopAt !== null && t - state.lastStartOrStopAt < START_GUARD) return 'just started or stopped';
  if (state.phase === 'waiting') {
    beginOnWord(state, state.current, t);
    return null;
  }
  if (t < state.t0) return bringForward(state, t);
  if (state.current + 1 >= state.stretches.length) return 'nothing follows';
  const pending = state.lanes.filter(hasPending);
  const someLaneIsThrough = state.lanes.some((lane) => lane.takesPart && hasLeft(lane) && !hasPending(lane));
  const onlyStopped = pending.every(isStopped) && someLaneIsThrough;
  if (pending.length > 0 && !onlyStopped) return 'lanes are still under way';
  beginOnWord(state, state.current + 1, t);
  return null;
}

function bringForward(state: RunState, t: number): Refusal {
  const isSwim = isGoingSwim(state);
  const earlier = isSwim ? align(state, t + LEAD) : t;
  const by = earlier - state.t0;
  if (by >= 0) return 'no earlier than it begins already';
  return unlessTooSoon(state, t, () => {
    state.t0 += by;
    state.pauseEnd += by;
    for (const lane of state.lanes) moveLeaves(lane, by);
    return null;
  });
}

function skip(lane: LaneState): void {
  const dropped = lane.pending.shift();
  if (dropped) moveLeaves(lane, -dropped.rep.interval);
}

function repeat(state: RunState, lane: LaneState, t: number): void {
  if (lane.lastLeft === null) return;
  const { rep } = lane.lastLeft;
  const next = nextLeave(lane);
  if (next === null) {
    const leave = Math.max(lane.end, align(state, t + LEAD));
    lane.pending = [{ rep, leave, again: true }];
    lane.end = leave + rep.interval;
    return;
  }
  moveLeaves(lane, rep.interval);
  lane.pending.unshift({ rep, leave: next, again: true });
}

function shift(state: RunState, command: Command): Refusal {
  const t = command.atMs;
  const by = (command.seconds ?? 0) * 1000;
  if (isGoingPause(state)) {
    const notBegun = t < state.t0;
    if (state.pauseEnd + by <= t) return 'its end would be past';
    if (notBegun && state.t0 + by < t) return 'its beginning would be past';
    state.pauseEnd += by;
    if (notBegun) state.t0 += by;
    return null;
  }
  return unlessTooSoon(state, t, () =>
    toLanes(state, command, hasPending, (lanes) => {
      for (const lane of lanes) {
        moveLeaves(lane, by);
        lane.displacement += by;
      }
    }),
  );
}

function changeIntervals(state: RunState, command: Command): Refusal {
  const by = (command.seconds ?? 0) * 1000;
  let outOfRange = false;
  const refusal = toLanes(state, command, hasPending, (lanes) => {
    for (const lane of lanes) {
      const line = lane.pending[0]?.rep.line;
      const own = [...lane.pending, ...(lane.lastLeft ? [lane.lastLeft] : [])].map((pending) => pending.rep);
      const toCome = state.stretches.slice(state.current).flatMap((stretch) => stretch.lanes[lane.index] ?? []);
      for (const rep of new Set([...own, ...toCome].filter((one) => one.line === line))) {
        rep.interval += by;
        if (rep.interval <= 0 || rep.interval > LONGEST_INTERVAL) outOfRange = true;
      }
      let later = lane.lastLeft?.rep.line === line ? by : 0;
      for (const pending of lane.pending) {
        pending.leave += later;
        if (pending.rep.line === line) later += by;
      }
      lane.end += later;
    }
  });
  return outOfRange ? 'an interval would be out of range' : refusal;
}

function laneOut(state: RunState, command: Command): Refusal {
  const leaving = lanesOf(state, command);
  if (state.lanes.every((lane) => !lane.isIn || leaving.includes(lane))) return 'one lane at least stays in';
  for (const lane of leaving) {
    takeNoPart(lane);
    lane.isIn = false;
  }
  return null;
}

function laneIn(state: RunState, command: Command, number: number): Refusal {
  const coming = lanesOf(state, command);
  const others = state.lanes.filter((lane) => lane.takesPart);
  const group = groupToJoin(state, number);
  const displacement = others.length > 0 ? Math.min(...others.map((lane) => lane.displacement)) : 0;
  for (const lane of coming) {
    lane.isIn = true;
    if (!isGoingSwim(state)) continue;
    const reps = repsFrom(currentStretch(state), lane.index, state.startFrom);
    const { offsets, length } = walk(reps);
    const from = state.t0 + displacement;
    const inTime = reps
      .map((rep, place) => ({ rep, leave: from + (offsets[place] ?? 0), again: false }))
      .filter((one) => one.leave >= command.atMs + LEAD);
    if (inTime.length === 0) continue;
    Object.assign(lane, { takesPart: true, hadRep: true, pending: inTime, displacement, stoppedBy: group });
    lane.end = from + length;
  }
  return null;
}
