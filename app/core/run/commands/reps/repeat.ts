/*
 * `repeat`: swims the rep that left last again, as the next rep.
 */

import type { Millis } from '../../../units.ts';
import { align, LEAD } from '../../align.ts';
import { changeLanes, choose, done, no, type Lacking, type Outcome } from '../../command/answer.ts';
import { LANES, optional, type FieldsOf } from '../../command/command-fields.ts';
import type { Rule } from '../../command/command-rule.ts';
import type { CommandWords } from '../../command/command-words.ts';
import { NOT_GOING } from '../../command/lane-change.ts';
import { isPending, type LaneState, type RunState } from '../../state.ts';

const REPEATABLE: Lacking = {
  none: 'has left yet in this stretch: there is no rep to repeat',
  one: 'has not left yet in this stretch: there is no rep to repeat',
};

const fields = { lanes: optional(LANES) };

declare module '../../command/command.ts' {
  interface CommandFields {
    readonly repeat: FieldsOf<typeof fields>;
  }
}

export const repeat: Rule<'repeat'> = {
  fields,
  carryOut: (now, { lanes }, at) => swumAgain(now, lanes, at),
  steers: true,
  touches: (lane) => lane.leftHere,
};

export const repeatWords = {
  label: 'Repeat',
  actions: {
    repeat: {
      label: 'Repeat',
      key: 'R',
      does: 'the last rep again',
      pressed: false,
      byChoice: true,
      desk: 'row',
      remote: 'more',
      command: (lanes) => ({ do: 'repeat', ...lanes }),
    },
  },
  says: ({ touched, who, rep, next }) => {
    const again = rep(
      touched.map(({ is }) => is.reps[is.next]),
      'the last rep',
    );
    return `Repeating ${again} in ${who}: ${next()}.`;
  },
} satisfies CommandWords<'repeat'>;

function swumAgain(state: RunState, named: readonly number[] | undefined, t: Millis): Outcome {
  if (state.phase !== 'going') return no(NOT_GOING);
  const chosen = choose(state, named, (lane) => lane.leftHere, REPEATABLE);
  if (!chosen.ok) return chosen;
  return done(changeLanes(state, chosen.lanes, (lane) => repeated(state, lane, t)));
}

function repeated(state: RunState, lane: LaneState, t: Millis): LaneState {
  const { rep } = lane.last!;
  if (isPending(lane)) {
    // It takes the time of the next leave; that leave and all later ones move back by the rep's interval.
    const offset = lane.reps[lane.next]!.offset - rep.interval;
    const reps = [{ ...rep, leftover: 0, again: true as const, offset }, ...lane.reps.slice(lane.next)];
    return { ...lane, reps, next: 0, origin: lane.origin + rep.interval, end: lane.end + rep.interval };
  }
  const leave = Math.max(lane.end, align(state, t + LEAD));
  const reps = [{ ...rep, leftover: 0, again: true as const, offset: 0 }];
  return { ...lane, reps, next: 0, origin: leave, end: leave + rep.interval };
}
