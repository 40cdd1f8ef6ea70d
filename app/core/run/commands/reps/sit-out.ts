/*
 * `sit-out`: drops the next rep; nothing else moves.
 */

import { changeLanes, choose, done, type Outcome } from '../../command/answer.ts';
import { LANES, optional, type FieldsOf } from '../../command/command-fields.ts';
import type { Rule } from '../../command/command-rule.ts';
import type { CommandWords } from '../../command/command-words.ts';
import { LEFT } from '../../command/lane-change.ts';
import { isPending, nextLeave, type RunState } from '../../state.ts';

const fields = { lanes: optional(LANES) };

declare module '../../command/command.ts' {
  interface CommandFields {
    readonly 'sit-out': FieldsOf<typeof fields>;
  }
}

export const sitOut: Rule<'sit-out'> = {
  fields,
  carryOut: (now, { lanes }) => satOut(now, lanes),
  steers: true,
  touches: isPending,
};

export const sitOutWords = {
  label: 'Sit out',
  actions: {
    'sit-out': {
      label: 'Sit out',
      key: 'O',
      does: 'times stay',
      pressed: false,
      byChoice: true,
      desk: 'row',
      remote: 'few',
      command: (lanes) => ({ do: 'sit-out', ...lanes }),
    },
  },
  says: ({ touched, who, rep, next }) => {
    const dropped = rep(
      touched.map(({ was }) => was.reps[was.next]),
      'the next rep',
    );
    return `Sat out ${dropped} in ${who}: ${next()}.`;
  },
} satisfies CommandWords<'sit-out'>;

function satOut(state: RunState, named: readonly number[] | undefined): Outcome {
  const chosen = choose(state, named, isPending, LEFT);
  if (!chosen.ok) return chosen;
  return done(
    changeLanes(state, chosen.lanes, (lane) => {
      const satOutFrom = lane.satOutFrom ?? nextLeave(lane);
      return { ...lane, next: lane.next + 1, satOutFrom };
    }),
  );
}
