/*
 * `cut`: the last reps of a set, or its last rounds, will not be swum.
 */

import { wholeNumber, type FieldsOf } from '../../command/command-fields.ts';
import type { Rule } from '../../command/command-rule.ts';
import type { CommandWords } from '../../command/command-words.ts';
import { cutLine } from '../../cuts/cut.ts';

const fields = { line: wholeNumber('line', 1), n: wholeNumber('n', 1) };

declare module '../../command/command.ts' {
  interface CommandFields {
    readonly cut: FieldsOf<typeof fields>;
  }
}

export const cut: Rule<'cut'> = {
  fields,
  carryOut: (now, { line, n }, at) => cutLine(now, line, n, at),
  steers: true,
  touches: ({ reps, next }, { line }) =>
    reps.slice(next).some(({ set }) => set.line === line || set.rounds.some((round) => round.line === line)),
};

export const cutWords = {
  label: 'Cut',
  actions: {},
  says: ({ command: { line, n }, end, ...told }) => `Cut ${told.cut(line, n)}${end(line)}.`,
} satisfies CommandWords<'cut'>;
