/*
 * `gap`: from its next leave on, a lane's swimmers leave this many seconds apart.
 */

import { SECOND } from '../../../units.ts';
import { changeChosen } from '../../command/answer.ts';
import { LANES, optional, wholeNumber, type FieldsOf } from '../../command/command-fields.ts';
import type { Rule } from '../../command/command-rule.ts';
import type { CommandWords } from '../../command/command-words.ts';

const fields = { lanes: optional(LANES), seconds: wholeNumber('seconds', 1, 60) };

declare module '../../command/command.ts' {
  interface CommandFields {
    readonly gap: FieldsOf<typeof fields>;
  }
}

export const gap: Rule<'gap'> = {
  fields,
  carryOut: (now, { lanes, seconds }) => changeChosen(now, lanes, (lane) => ({ ...lane, gap: seconds * SECOND })),
  steers: true,
  touches: null,
};

export const gapWords = {
  label: 'Gap',
  actions: {},
  says: ({ command: { seconds }, given, capital }) => `${capital(given)}: ${seconds} s apart from the next leave on.`,
} satisfies CommandWords<'gap'>;
