/*
 * `lane-out`: takes lanes out of what follows. At least one lane stays in.
 */

import { changeLanes, choose, done, no, type Outcome } from '../../command/answer.ts';
import { LANES, type FieldsOf } from '../../command/command-fields.ts';
import type { Rule } from '../../command/command-rule.ts';
import type { CommandWords } from '../../command/command-words.ts';
import { NOTHING_PENDING, type RunState } from '../../state.ts';

const fields = { lanes: LANES };

declare module '../../command/command.ts' {
  interface CommandFields {
    readonly 'lane-out': FieldsOf<typeof fields>;
  }
}

export const laneOut: Rule<'lane-out'> = {
  fields,
  carryOut: (now, { lanes }) => wentOut(now, lanes),
  steers: true,
  touches: null,
  takesLeavesAway: true,
};

export const laneOutWords = {
  label: 'Lane out',
  actions: {},
  says: ({ command, before, lanes, capital }) =>
    `${capital(lanes(command.lanes, before))} ${command.lanes.length > 1 ? 'are' : 'is'} out.`,
} satisfies CommandWords<'lane-out'>;

function wentOut(state: RunState, named: readonly number[]): Outcome {
  const chosen = choose(state, named);
  if (!chosen.ok) return chosen;
  if (state.lanes.every((lane, index) => !lane.in || chosen.lanes.has(index))) {
    return no('At least one lane must stay in: use Finish to end the session.');
  }
  return done(changeLanes(state, chosen.lanes, (lane) => ({ ...lane, ...NOTHING_PENDING, in: false })));
}
