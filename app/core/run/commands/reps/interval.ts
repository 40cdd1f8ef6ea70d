/*
 * `interval`: makes the intervals of a line longer or shorter, from a lane's next rep on.
 */

import { HOUR, SECOND, type Millis } from '../../../units.ts';
import type { Rep, Stretch } from '../../../plan/plan.ts';
import { retime, withTimes } from '../../../plan/retime.ts';
import { changeLanes, choose, no, type Outcome } from '../../command/answer.ts';
import { CHANGE, LANES, optional, type FieldsOf } from '../../command/command-fields.ts';
import type { CommandOf } from '../../command/command.ts';
import type { Rule } from '../../command/command-rule.ts';
import type { CommandWords, Told } from '../../command/command-words.ts';
import { LEFT, NOT_GOING, unlessTooSoon } from '../../command/lane-change.ts';
import { isPending, type LaneState, type RunState } from '../../state.ts';

const fields = { lanes: optional(LANES), seconds: CHANGE };

declare module '../../command/command.ts' {
  interface CommandFields {
    readonly interval: FieldsOf<typeof fields>;
  }
}

export const interval: Rule<'interval'> = {
  fields,
  carryOut: (now, { lanes, seconds }, at) => retimed(now, lanes, seconds, at),
  steers: true,
  touches: isPending,
};

/** Seconds of one press of "−5 s a rep" or "+5 s a rep". */
const STEP = 5;

export const intervalWords = {
  label: 'Interval',
  actions: {
    shorter: {
      label: '−5 s a rep',
      key: '[',
      does: 'interval shorter',
      pressed: false,
      byChoice: true,
      remote: 'more',
      command: (lanes) => ({ do: 'interval', ...lanes, seconds: -STEP }),
    },
    longer: {
      label: '+5 s a rep',
      key: ']',
      does: 'interval longer',
      pressed: false,
      byChoice: true,
      remote: 'more',
      command: (lanes) => ({ do: 'interval', ...lanes, seconds: STEP }),
    },
  },
  says: (told) => `${intervalText(told)}: ${told.next()}.${blockText(told)}`,
} satisfies CommandWords<'interval'>;

function retimed(state: RunState, named: readonly number[] | undefined, seconds: number, t: Millis): Outcome {
  if (state.phase !== 'going') return no(NOT_GOING);
  const chosen = choose(state, named, isPending, LEFT);
  if (!chosen.ok) return chosen;
  const by = seconds * SECOND;
  let stretches = state.stretches;
  const lines = new Set(state.retimed);
  for (const index of chosen.lanes) {
    const lane = state.lanes[index]!;
    const line = lane.reps[lane.next]!.set.line;
    const changed = withLongerIntervals(stretches, state.index, index, line, by);
    if (!changed || !staysInBounds(lane, line, by)) {
      const limit = seconds > 0 ? 'more than 1:00:00' : '0 or less';
      return no(`An interval in lane ${lane.number} would become ${limit}: choose a smaller change.`);
    }
    stretches = changed;
    lines.add(line);
  }
  const lanes = changeLanes(state, chosen.lanes, (lane) => withLongerPending(lane, by));
  return unlessTooSoon(state, { ...lanes, stretches, retimed: lines }, t);
}

/**
 * The stretches, with the lane's intervals of a line longer from the current stretch on; null if one would become 0
 * or less, or more than an hour.
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

/** Whether the lane's pending reps of a line, repeated ones too, and the interval now running stay within bounds. */
function staysInBounds(lane: LaneState, line: number, by: Millis): boolean {
  const left = lane.leftHere && lane.last ? [lane.last.rep] : [];
  return [...left, ...lane.reps.slice(lane.next)].every(
    ({ set, interval }) => set.line !== line || (interval + by > 0 && interval + by <= HOUR),
  );
}

/** The lane with longer intervals for its pending reps of its next rep's line. The interval now running changes too. */
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

/** "50 fast on 1:05, was 1:00, in lane 1; on 1:15, was 1:10, in lane 2". */
function intervalText({ touched, before, rep, interval: written, lanes, capital }: Told<unknown>): string {
  const what = rep(
    touched.map(({ is }) => is.reps[is.next]),
    'the set',
  );
  const numbers = new Map<string, number[]>();
  for (const { was, is } of touched) {
    const text = `on ${written(is.reps[is.next]!)}, was ${written(was.reps[was.next]!)}`;
    numbers.set(text, [...(numbers.get(text) ?? []), is.number]);
  }
  const texts = [...numbers].map(([text, of]) => `${text}, in ${lanes(of, before)}`);
  return `${capital(what)} ${texts.join('; ')}`;
}

/** A timed block keeps its reps, so it no longer takes the time that was written. */
function blockText({ touched, command: { seconds } }: Told<CommandOf<'interval'>>): string {
  const isBlock = touched.some(({ is }) => is.reps[is.next]!.set.kind === 'block');
  return isBlock ? ` The timed block is now ${seconds > 0 ? 'longer' : 'shorter'} than written.` : '';
}
