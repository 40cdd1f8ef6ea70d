/*
 * `mark`: writes a note into the record and changes nothing else.
 */

import type { Millis } from '../../units.ts';
import { choose, done, type Outcome } from '../command/answer.ts';
import { LANES, MARK_WORDS, optional, type FieldsOf } from '../command/command-fields.ts';
import type { Rule } from '../command/command-rule.ts';
import type { CommandWords } from '../command/command-words.ts';
import type { RunState } from '../state.ts';

const fields = { lanes: optional(LANES), words: optional(MARK_WORDS) };

declare module '../command/command.ts' {
  interface CommandFields {
    readonly mark: FieldsOf<typeof fields>;
  }
}

export const mark: Rule<'mark'> = {
  fields,
  carryOut: (now, { lanes, words }, at) => marked(now, lanes, words, at),
  steers: false,
  touches: null,
};

export const markWords = {
  label: 'Mark',
  actions: {
    mark: {
      label: 'Mark',
      key: 'M',
      does: 'for the record',
      pressed: false,
      byChoice: true,
      remote: 'more',
      command: (lanes) => ({ do: 'mark', ...lanes }),
    },
  },
  says: ({ command: { lanes, words }, before, ...told }) =>
    `Marked${lanes ? ` ${told.lanes(lanes, before)}` : ''}${words ? `: ${words}` : ''}.`,
} satisfies CommandWords<'mark'>;

function marked(state: RunState, named: readonly number[] | undefined, words = '', t: Millis): Outcome {
  const chosen = choose(state, named);
  if (!chosen.ok) return chosen;
  const lanes = named ? state.lanes.filter((_, index) => chosen.lanes.has(index)).map((lane) => lane.number) : [];
  return done({ ...state, marks: [...state.marks, { at: t, lanes, words }] });
}
