/*
 * `skip`: drops the next rep. Later reps, and the lane's end, come sooner by its interval.
 */

import { changeLanes, choose, done, type Outcome } from '../../command/answer.ts';
import { LANES, optional, type FieldsOf } from '../../command/command-fields.ts';
import type { Rule } from '../../command/command-rule.ts';
import type { CommandWords } from '../../command/command-words.ts';
import { LEFT } from '../../command/lane-change.ts';
import { isPending, type RunState } from '../../state.ts';

const fields = { lanes: optional(LANES) };

declare module '../../command/command.ts' {
  interface CommandFields {
    readonly skip: FieldsOf<typeof fields>;
  }
}

export const skip: Rule<'skip'> = {
  fields,
  carryOut: (now, { lanes }) => skipped(now, lanes),
  steers: true,
  touches: isPending,
};

export const skipWords = {
  label: 'Skip rep',
  actions: {
    skip: {
      label: 'Skip rep',
      key: 'S',
      does: 'the set gets shorter',
      pressed: false,
      byChoice: true,
      desk: 'row',
      remote: 'few',
      command: (lanes) => ({ do: 'skip', ...lanes }),
    },
  },
  says: ({ touched, who, rep, next }) => {
    const dropped = rep(
      touched.map(({ was }) => was.reps[was.next]),
      'the next rep',
    );
    return `Skipped ${dropped} in ${who}: ${next()}.`;
  },
} satisfies CommandWords<'skip'>;

function skipped(state: RunState, named: readonly number[] | undefined): Outcome {
  const chosen = choose(state, named, isPending, LEFT);
  if (!chosen.ok) return chosen;
  return done(
    changeLanes(state, chosen.lanes, (lane) => {
      const sooner = lane.reps[lane.next]!.interval;
      return { ...lane, next: lane.next + 1, origin: lane.origin - sooner, end: lane.end - sooner };
    }),
  );
}
