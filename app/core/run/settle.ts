/*
 * The passing of time: reps leave, stretches end, and what follows by itself begins. `settle` takes a state to a time
 * at which no command is given. Its cost grows with the stretches passed, not with the leaves.
 */

import type { Millis } from '../units.ts';
import type { Stretch } from '../plan/plan.ts';
import { waitsFor } from '../plan/plan.ts';
import { plannedStart, tailOf, type Tail } from '../plan/schedule.ts';
import { align, LEAD, ON_ITS_WAY } from './align.ts';
import { startingFrom, type Place } from './place.ts';
import { leavesOf } from './record.ts';
import { currentStretch, isPending, NOTHING_PENDING, type Departure, type LaneState, type RunState } from './state.ts';

/**
 * The state at time t, after everything due up to and including t has happened. With t = Infinity: the state once
 * nothing more happens by itself.
 */
export function settle(state: RunState, t: Millis): RunState {
  if (state.phase !== 'going') return state;
  const now = draftOf(state);
  while (now.phase === 'going') {
    depart(now, t);
    const end = stretchEnd(now);
    if (end > t || end === Infinity) break;
    endStretch(now, end);
  }
  return now;
}

/**
 * The state as a command at t finds it. R1: a leave due within 250 ms after t is on its way to the loudspeaker and
 * counts as having left, even if its stretch is only about to begin by itself.
 */
export function settleForCommand(state: RunState, t: Millis): RunState {
  const onTheirWay = leavesOf(settle(state, t + ON_ITS_WAY), t);
  const last = onTheirWay[onTheirWay.length - 1];
  return settle(state, last ? last.at : t);
}

/** A state that is still being made, the only kind that is changed in place. It shares no lanes or departures. */
type Draft = Writable<Omit<RunState, 'lanes' | 'departed'>> & { lanes: Writable<LaneState>[]; departed: Departure[] };

type Writable<T> = { -readonly [field in keyof T]: T[field] };

function draftOf(state: RunState): Draft {
  return { ...state, lanes: state.lanes.map((lane) => ({ ...lane })), departed: [...state.departed] };
}

/** R1: in lanes that are not stopped, whatever of the current stretch is due by t leaves. */
function depart(now: Draft, t: Millis): void {
  for (const lane of now.lanes) {
    const next = lane.stoppedBy === null ? firstAfter(lane, t) : lane.next;
    if (next === lane.next) continue;
    const { reps, origin, swimmers, gap } = lane;
    const rep = reps[next - 1]!;
    now.departed.push({
      lane: lane.number,
      stretch: now.index,
      reps,
      from: lane.next,
      to: next,
      origin,
      swimmers,
      gap,
    });
    lane.next = next;
    lane.leftHere = true;
    lane.satOutFrom = null;
    lane.last = { rep, at: origin + rep.offset, swimmers, gap };
  }
}

/**
 * R5: when the stretch that is going ends, as things stand; Infinity while it is open. A last stretch with an untimed
 * set ends only at the coach's word: Infinity too.
 */
export function stretchEnd(state: RunState): Millis {
  const stretch = currentStretch(state);
  if (stretch.kind !== 'swim') return Math.max(state.pauseEnd, state.commandAt);
  if (state.lanes.some(isPending)) return Infinity;
  if (stretch.untimed && state.index === state.stretches.length - 1) return Infinity;
  // If a command moved the end into the past, the stretch ends at the time of that command.
  return Math.max(latestEnd(state.lanes), state.commandAt);
}

/** The latest end of the lanes that take part; a lane that had a rep ends with its tail. */
export function latestEnd(lanes: readonly LaneState[]): Millis {
  let latest: Millis = -Infinity;
  for (const lane of lanes) {
    if (lane.takesPart) latest = Math.max(latest, lane.end + (lane.hadRep ? tailOf(lastToSwim(lane)) : 0));
  }
  return latest;
}

/** The swimmers and gap for the lane's tail. R2: those who follow a lead keep the number and gap of that moment. */
function lastToSwim(lane: LaneState): Tail {
  return lane.leftHere && !isPending(lane) ? lane.last! : lane;
}

/** R3: gives the stretch at `index` its T0. Each lane that is in takes part, from the place that a `go-to` named, if any. */
export function begin(state: RunState, index: number, t0: Millis): RunState {
  const now = draftOf(state);
  beginDraft(now, index, t0);
  return now;
}

function beginDraft(now: Draft, index: number, t0: Millis): void {
  const stretch = now.stretches[index]!;
  now.index = index;
  now.phase = 'going';
  now.t0Before = now.t0;
  now.t0 = t0;
  now.pauseEnd = t0 + stretch.time;
  now.heldAfter = false;
  now.departedBefore = now.departed.length;
  now.lanes.forEach((lane, laneIndex) => {
    Object.assign(lane, NOTHING_PENDING);
    const whole = stretch.lanes[laneIndex];
    if (!lane.in || !whole) return;
    const own = startingFrom(whole, now.from);
    lane.takesPart = true;
    lane.hadRep = own.reps.length > 0;
    lane.reps = own.reps;
    lane.origin = t0;
    lane.end = t0 + own.length;
  });
}

/** Whether what follows the current stretch waits for the coach's word; false if nothing follows. */
export function nextWaits(state: RunState): boolean {
  const next = state.stretches[state.index + 1];
  return (
    next !== undefined &&
    (state.heldAfter || waitsFor(next, currentStretch(state), state.plan.session.between.auto) === 'call')
  );
}

/** When a stretch begins by itself after one that ended at `end`. R6: a swim begins no sooner than LEAD after a command. */
export function beginsByItselfAt(state: RunState, stretch: Stretch, before: Stretch, end: Millis): Millis {
  const planned = startAfter(state, stretch, before, end);
  return stretch.kind === 'swim' ? Math.max(planned, align(state, state.steeredAt + LEAD)) : planned;
}

/** When a stretch after one that ended at `end` begins by the rule of the plan, on the pool's clock. */
export function startAfter(state: RunState, stretch: Stretch, before: Stretch, end: Millis): Millis {
  return plannedStart(stretch, before, end, state.plan.session.between.time, (time) => align(state, time));
}

/** Ends the current stretch by itself at `end` and brings on what follows. */
function endStretch(now: Draft, end: Millis): void {
  const index = now.index + 1;
  const next = now.stretches[index];
  const before = currentStretch(now);
  now.endedAt = end;
  now.from = null;
  if (!next) Object.assign(now, done(now, end));
  else if (nextWaits(now)) Object.assign(now, waitAt(now, index));
  else beginDraft(now, index, beginsByItselfAt(now, next, before, end));
}

/** The run waiting for the coach's word at a stretch, with nothing pending. */
export function waitAt(state: RunState, index: number, from: Place | null = null): RunState {
  return { ...state, phase: 'waiting', index, from, heldAfter: false, lanes: withNothingPending(state.lanes) };
}

/** Removes the stretch that waits: the next one waits in its place. If there is none, the session is done at t. */
export function withoutWaiting(state: RunState, t: Millis): RunState {
  const stretches = state.stretches.filter((_, index) => index !== state.index);
  if (state.index < stretches.length) return waitAt({ ...state, stretches }, state.index);
  // A session's only stretch stays, so that the screens have something to show.
  return done(stretches.length > 0 ? { ...state, stretches } : state, t);
}

export function done(state: RunState, at: Millis): RunState {
  return {
    ...state,
    phase: 'done',
    index: Math.max(0, Math.min(state.index, state.stretches.length - 1)),
    doneAt: at,
    from: null,
    lanes: withNothingPending(state.lanes),
  };
}

function withNothingPending(lanes: readonly LaneState[]): readonly LaneState[] {
  return lanes.map((lane) => ({ ...lane, ...NOTHING_PENDING }));
}

/** Index of the first pending rep that leaves after t, found by halving: a lane's leaves are in order of time. */
function firstAfter(lane: LaneState, t: Millis): number {
  let low = lane.next;
  let high = lane.reps.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (lane.origin + lane.reps[middle]!.offset <= t) low = middle + 1;
    else high = middle;
  }
  return low;
}
