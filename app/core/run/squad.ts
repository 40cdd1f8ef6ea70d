/*
 * Commands about who swims: lanes out and in, swimmers and gaps, and a word for the record.
 */

import type { Millis } from '../units.ts';
import { SECOND } from '../units.ts';
import { LEAD } from './align.ts';
import { IN, changeLanes, choose, done, no, type Outcome } from './answer.ts';
import { stopToJoin } from './lane-command.ts';
import { startingFrom } from './place.ts';
import { currentStretch, NOTHING_PENDING, type LaneState, type RunState } from './state.ts';

export function laneOut(state: RunState, named: readonly number[]): Outcome {
  const chosen = choose(state, named, () => true, IN);
  if (!chosen.ok) return chosen;
  if (state.lanes.every((lane, index) => !lane.in || chosen.lanes.has(index))) {
    return no('One lane at least stays in: use Finish to end the session.');
  }
  return done(changeLanes(state, chosen.lanes, (lane) => ({ ...lane, ...NOTHING_PENDING, in: false })));
}

export function laneIn(state: RunState, named: readonly number[], t: Millis): Outcome {
  const chosen = new Set<number>();
  for (const number of named) {
    const index = state.lanes.findIndex((lane) => lane.number === number);
    const lane = state.lanes[index];
    if (!lane) return no(`There is no lane ${number}.`);
    if (lane.in) return no(`Lane ${number} is in already.`);
    chosen.add(index);
  }
  const join = state.phase === 'going' && currentStretch(state).kind === 'swim' ? joining(state, t) : null;
  return done({
    ...state,
    lanes: state.lanes.map((lane, index) => {
      if (!chosen.has(index)) return lane;
      const here = { ...lane, in: true };
      return join ? join(here, index) : here;
    }),
  });
}

export function swimmers(state: RunState, named: readonly number[] | undefined, n: number): Outcome {
  return change(state, named, (lane) => ({ ...lane, swimmers: n }));
}

export function gap(state: RunState, named: readonly number[] | undefined, seconds: number): Outcome {
  return change(state, named, (lane) => ({ ...lane, gap: seconds * SECOND }));
}

export function mark(state: RunState, named: readonly number[] | undefined, words = '', t: Millis): Outcome {
  const chosen = choose(state, named, () => true, IN);
  if (!chosen.ok) return chosen;
  const lanes = named ? state.lanes.filter((_, index) => chosen.lanes.has(index)).map((lane) => lane.number) : [];
  return done({ ...state, marks: [...state.marks, { at: t, lanes, words }] });
}

function change(
  state: RunState,
  named: readonly number[] | undefined,
  changed: (lane: LaneState) => LaneState,
): Outcome {
  const chosen = choose(state, named, () => true, IN);
  return chosen.ok ? done(changeLanes(state, chosen.lanes, changed)) : chosen;
}

/**
 * How a lane comes into the swim that is going: in the stretch's own timetable, moved as little as any
 * lane taking part has been; what is due within the lead is missed, and a lane that has missed
 * everything waits for the next stretch. It comes in stopped where a stop holds everyone.
 */
function joining(state: RunState, t: Millis): (lane: LaneState, index: number) => LaneState {
  const taking = state.lanes.filter((lane) => lane.takesPart);
  const displacement = taking.length > 0 ? Math.min(...taking.map((lane) => lane.displacement)) : 0;
  const stoppedBy = stopToJoin(state);
  const origin = state.t0! + displacement;
  return (lane, index) => {
    const own = startingFrom(currentStretch(state).lanes[index]!, state.from);
    const next = own.reps.findIndex((rep) => origin + rep.offset >= t + LEAD);
    if (next < 0) return lane;
    const { reps, length } = own;
    const part = { takesPart: true, hadRep: true, reps, next, origin, end: origin + length, displacement, stoppedBy };
    return { ...lane, ...NOTHING_PENDING, ...part };
  };
}
