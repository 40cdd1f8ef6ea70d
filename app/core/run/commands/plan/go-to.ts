/*
 * `go-to`: jumps to any rep of the session. Its stretch waits for Start, and each lane then starts with its first rep
 * at or after that one.
 */

import type { Millis } from '../../../units.ts';
import { done, no, type Outcome } from '../../command/answer.ts';
import { optional, ROUNDS, wholeNumber, type FieldsOf } from '../../command/command-fields.ts';
import type { CommandOf } from '../../command/command.ts';
import type { Rule } from '../../command/command-rule.ts';
import type { CommandWords } from '../../command/command-words.ts';
import { placeIn } from '../../place.ts';
import type { RunState } from '../../state.ts';
import { beforeCountdown, waitAtWhatIsLeft } from '../../command/ways-out.ts';

const fields = { line: wholeNumber('line', 1), rounds: optional(ROUNDS), rep: wholeNumber('rep', 1) };

declare module '../../command/command.ts' {
  interface CommandFields {
    readonly 'go-to': FieldsOf<typeof fields>;
  }
}

export const goTo: Rule<'go-to'> = {
  fields,
  carryOut: goneTo,
  steers: true,
  touches: null,
  takesLeavesAway: true,
  givesUp: true,
};

export const goToWords = {
  label: 'Go to',
  actions: {},
  says: ({ cameTo }) => cameTo('Gone to'),
} satisfies CommandWords<'go-to'>;

/** Waits at the first stretch in which any lane has the rep. */
function goneTo(state: RunState, target: CommandOf<'go-to'>, t: Millis): Outcome {
  for (let index = 0; index < state.stretches.length; index++) {
    const from = placeIn(state.stretches[index]!, target);
    if (from) return done(waitAtWhatIsLeft(beforeCountdown(state, t), index, t, from));
  }
  return no(`Line ${target.line} does not have that rep in the session as it stands: choose another rep.`);
}
