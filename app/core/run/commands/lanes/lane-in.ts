/*
 * `lane-in`: brings lanes back in. If a swim is going, they join it at once.
 */

import type { Millis } from '../../../units.ts';
import { LEAD } from '../../align.ts';
import { done, no, type Outcome } from '../../command/answer.ts';
import { LANES, type FieldsOf } from '../../command/command-fields.ts';
import type { Rule } from '../../command/command-rule.ts';
import type { CommandWords } from '../../command/command-words.ts';
import { stopToJoin } from '../../command/lane-change.ts';
import { startingFrom } from '../../place.ts';
import { currentStretch, isPending, NOTHING_PENDING, type LaneState, type RunState } from '../../state.ts';

const fields = { lanes: LANES };

declare module '../../command/command.ts' {
  interface CommandFields {
    readonly 'lane-in': FieldsOf<typeof fields>;
  }
}

export const laneIn: Rule<'lane-in'> = {
  fields,
  carryOut: (now, { lanes }, at) => cameIn(now, lanes, at),
  steers: true,
  touches: null,
};

export const laneInWords = {
  label: 'Lane in',
  actions: {},
  says: ({ command, after, touched, lanes, next, capital }) => {
    const joins = touched.some(({ is }) => isPending(is)) ? next() : 'from the next start on';
    return `${capital(lanes(command.lanes, after))} ${command.lanes.length > 1 ? 'are' : 'is'} in: ${joins}.`;
  },
} satisfies CommandWords<'lane-in'>;

function cameIn(state: RunState, named: readonly number[], t: Millis): Outcome {
  const chosen = new Set<number>();
  for (const number of named) {
    const index = state.lanes.findIndex((lane) => lane.number === number);
    const lane = state.lanes[index];
    if (!lane) return no(`There is no lane ${number}.`);
    if (lane.in) return no(`Lane ${number} is already in.`);
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

/**
 * How a lane joins the swim that is going. It keeps the stretch's timetable, moved by the least displacement of the
 * lanes taking part. It misses what is due before t + LEAD; a lane that has missed everything waits for the next
 * stretch. If a stop holds everyone, it comes in stopped.
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
