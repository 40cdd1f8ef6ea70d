/*
 * Time passing: reps leave, stretches end, what goes on by itself begins. `settle` takes a state to
 * a time at which no command is given; it costs by the stretches passed, not by the leaves.
 */

import type { Millis } from '../units.ts';
import type { LaneReps, Stretch } from '../plan/plan.ts';
import { beginsPart, waitsFor } from '../plan/plan.ts';
import { align, LEAD, ON_ITS_WAY } from './align.ts';
import { leavesOf } from './record.ts';
import {
  currentStretch,
  isPending,
  NOTHING_PENDING,
  tailOf,
  type Departure,
  type LaneState,
  type Place,
  type RunState,
} from './state.ts';

/**
 * The state at time t (t = Infinity: when nothing more happens by itself), everything due up to and
 * including t having happened.
 */
export function settle(state: RunState, t: Millis): RunState {
  let now = state;
  while (now.phase === 'going') {
    const departed = depart(now, t);
    const end = stretchEnd(departed);
    if (end > t || end === Infinity) return departed;
    now = endStretch(departed, end);
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

/** R1: of the current stretch, whatever is due by t in lanes that are not stopped has left. */
function depart(state: RunState, t: Millis): RunState {
  const departures: Departure[] = [];
  const lanes = state.lanes.map((lane) => {
    const next = lane.stoppedBy === null ? firstAfter(lane, t) : lane.next;
    if (next === lane.next) return lane;
    const { reps, origin, swimmers, gap } = lane;
    departures.push({
      lane: lane.number,
      stretch: state.index,
      reps,
      from: lane.next,
      to: next,
      origin,
      swimmers,
      gap,
    });
    const rep = reps[next - 1]!;
    return { ...lane, next, leftHere: true, last: { rep, at: origin + rep.offset, swimmers, gap } };
  });
  return departures.length === 0 ? state : { ...state, lanes, departed: [...state.departed, ...departures] };
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
    if (lane.takesPart) latest = Math.max(latest, lane.end + (lane.hadRep ? tailOf(lane) : 0));
  }
  return latest;
}

/** R3: the stretch at `index` gets its T0, and each lane that is in takes part, from the place a `go-to` named, if any. */
export function begin(state: RunState, index: number, t0: Millis): RunState {
  const stretch = state.stretches[index]!;
  return {
    ...state,
    index,
    phase: 'going',
    t0,
    t0Before: state.t0,
    pauseEnd: t0 + stretch.time,
    heldAfter: false,
    begunPart: Math.max(state.begunPart, stretch.partIndex),
    lanes: state.lanes.map((lane, laneIndex) => {
      const own = stretch.lanes[laneIndex];
      if (!lane.in || !own) return { ...lane, ...NOTHING_PENDING };
      return takePart(lane, startingFrom(own, state.from), t0);
    }),
  };
}

/** The planned time of a stretch that follows one ending at `end`: the rule of the plan, on the pool's clock. */
export function plannedStart(state: RunState, stretch: Stretch, before: Stretch, end: Millis): Millis {
  if (beginsPart(stretch, before)) return align(state, end + state.plan.session.between.time);
  return stretch.kind === 'swim' ? align(state, end) : end;
}

/** What a lane swims of a stretch that begins at a place: its first rep not before it, at offset 0. */
export function startingFrom(own: LaneReps, from: Place | null): LaneReps {
  if (!from) return own;
  const first = own.reps.findIndex(
    ({ set, rep }) => set.order > from.order || (set.order === from.order && rep >= from.rep),
  );
  if (first < 0) return { reps: [], length: 0 };
  const skipped = own.reps[first]!.offset;
  return {
    reps: own.reps.slice(first).map((rep) => ({ ...rep, offset: rep.offset - skipped })),
    length: own.length - skipped,
  };
}

export function takePart(lane: LaneState, own: LaneReps, origin: Millis): LaneState {
  return {
    ...lane,
    ...NOTHING_PENDING,
    takesPart: true,
    hadRep: own.reps.length > 0,
    reps: own.reps,
    origin,
    end: origin + own.length,
  };
}

/** What follows the current stretch, ended by itself at `end`. */
function endStretch(state: RunState, end: Millis): RunState {
  const index = state.index + 1;
  const next = state.stretches[index];
  const ended = { ...state, endedAt: end, from: null };
  if (!next) return done(ended, end);
  const before = currentStretch(state);
  if (state.heldAfter || waitsFor(next, before, state.plan.session.between.auto) === 'call') {
    return waitAt(ended, index);
  }
  const planned = plannedStart(state, next, before, end);
  // R6: nobody is sent off by something that begins by itself with less than the lead after a command.
  const t0 = next.kind === 'swim' ? Math.max(planned, align(state, state.steeredAt + LEAD)) : planned;
  return begin(ended, index, t0);
}

/** Waiting for the coach's word at a stretch; nothing is pending. */
export function waitAt(state: RunState, index: number, from: Place | null = null): RunState {
  return { ...state, phase: 'waiting', index, from, heldAfter: false, lanes: withNothingPending(state.lanes) };
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
