/*
 * `swimmers`: from its next leave on, a lane has this many swimmers.
 */

import { changeChosen } from '../../command/answer.ts';
import { LANES, optional, wholeNumber, type FieldsOf } from '../../command/command-fields.ts';
import type { Rule } from '../../command/command-rule.ts';
import type { CommandWords } from '../../command/command-words.ts';

const fields = { lanes: optional(LANES), n: wholeNumber('n', 1, 20) };

declare module '../../command/command.ts' {
  interface CommandFields {
    readonly swimmers: FieldsOf<typeof fields>;
  }
}

export const swimmers: Rule<'swimmers'> = {
  fields,
  carryOut: (now, { lanes, n }) => changeChosen(now, lanes, (lane) => ({ ...lane, swimmers: n })),
  steers: true,
  touches: null,
};

export const swimmersWords = {
  label: 'Swimmers',
  actions: {},
  says: ({ command: { n }, given, capital, count }) =>
    `${capital(given)}: ${count(n, 'swimmer')} from the next leave on.`,
} satisfies CommandWords<'swimmers'>;
