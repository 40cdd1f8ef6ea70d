/*
 * Time passing: reps leave, stretches end, what goes on by itself begins. `settle` takes a state to
 * a time at which no command is given; it costs by the stretches passed, not by the leaves.
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
 * The state at time t (t = Infinity: when nothing more happens by itself), everything due up to and
 * including t having happened.
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
 * The state as a command at t finds it. R1: besides what is due by t, a leave due a moment later is on
 * its way to the loudspeaker and has left, even out of a stretch that is about to begin by itself.
 */
export function settleForCommand(state: RunState, t: Millis): RunState {
  const onTheirWay = leavesOf(settle(state, t + ON_ITS_WAY), t);
  const last = onTheirWay[onTheirWay.length - 1];
  return settle(state, last ? last.at : t);
}

/** A state that is still being made: the only kind that is ever changed. Its lanes and departures are its own. */
type Draft = Writable<Omit<RunState, 'lanes' | 'departed'>> & { lanes: Writable<LaneState>[]; departed: Departure[] };

type Writable<T> = { -readonly [field in keyof T]: T[field] };

function draftOf(state: RunState): Draft {
  return { ...state, lanes: state.lanes.map((lane) => ({ ...lane })), departed: [...state.departed] };
}

/** R1: of the current stretch, whatever is due by t in lanes that are not stopped has left. */
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
    lane.last = { rep, at: origin + rep.offset, swimmers, gap };
  }
}

/**
 * R5: when the stretch that is going ends, as things stand; Infinity while it is open, and for a last
 * stretch with an untimed set, which ends on the coach's word.
 */
export function stretchEnd(state: RunState): Millis {
  const stretch = currentStretch(state);
  if (stretch.kind !== 'swim') return Math.max(state.pauseEnd, state.commandAt);
  if (state.lanes.some(isPending)) return Infinity;
  if (stretch.untimed && state.index === state.stretches.length - 1) return Infinity;
  // An end that a command put into the past is the time of that command.
  return Math.max(latestEnd(state.lanes), state.commandAt);
}

/** The greatest of the ends of the lanes that take part, each with its tail if it had a rep. */
export function latestEnd(lanes: readonly LaneState[]): Millis {
  let latest: Millis = -Infinity;
  for (const lane of lanes) {
    if (lane.takesPart) latest = Math.max(latest, lane.end + (lane.hadRep ? tailOf(lastToSwim(lane)) : 0));
  }
  return latest;
}

/** Whose tail the lane still has to see off: R2, those who follow a leave keep the number and gap of its moment. */
function lastToSwim(lane: LaneState): Tail {
  return lane.leftHere && !isPending(lane) ? lane.last! : lane;
}

/** R3: the stretch at `index` gets its T0, and each lane that is in takes part, from the place a `go-to` named, if any. */
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

/** Whether what follows the current stretch waits for the coach's word; false where nothing follows. */
export function nextWaits(state: RunState): boolean {
  const next = state.stretches[state.index + 1];
  return (
    next !== undefined &&
    (state.heldAfter || waitsFor(next, currentStretch(state), state.plan.session.between.auto) === 'call')
  );
}

/** When a stretch begins by itself after one that ended at `end`: R6, nobody is sent off with less than the lead after a command. */
export function beginsByItselfAt(state: RunState, stretch: Stretch, before: Stretch, end: Millis): Millis {
  const planned = startAfter(state, stretch, before, end);
  return stretch.kind === 'swim' ? Math.max(planned, align(state, state.steeredAt + LEAD)) : planned;
}

/** The planned time of a stretch that follows one ending at `end`: the rule of the plan, on the pool's clock. */
export function startAfter(state: RunState, stretch: Stretch, before: Stretch, end: Millis): Millis {
  return plannedStart(stretch, before, end, state.plan.session.between.time, (time) => align(state, time));
}

/** What follows the current stretch, ended by itself at `end`. */
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

/** Waiting for the coach's word at a stretch; nothing is pending. */
export function waitAt(state: RunState, index: number, from: Place | null = null): RunState {
  return { ...state, phase: 'waiting', index, from, heldAfter: false, lanes: withNothingPending(state.lanes) };
}

/** The stretch that waits goes: the next waits in its place, and with none the session is done at t. */
export function withoutWaiting(state: RunState, t: Millis): RunState {
  const stretches = state.stretches.filter((_, index) => index !== state.index);
  if (state.index < stretches.length) return waitAt({ ...state, stretches }, state.index);
  // The only stretch of a session stays for the screens to show, done as it is.
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

/** Index of the first pending rep that leaves after t: leaves of a lane rise, so by halving. */
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
