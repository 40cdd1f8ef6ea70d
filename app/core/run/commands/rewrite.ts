/*
 * `rewrite`: what is to come is swum by another text from now on.
 */

import { TEXT, type FieldsOf } from '../command-fields.ts';
import type { Rule } from '../command-rule.ts';
import type { CommandWords } from '../command-words.ts';
import { rewritten } from '../rewrite.ts';

const fields = { text: TEXT };

declare module '../command.ts' {
  interface CommandFields {
    readonly rewrite: FieldsOf<typeof fields>;
  }
}

export const rewrite: Rule<'rewrite'> = {
  fields,
  carryOut: (now, { text }, at) => rewritten(now, text, at),
  steers: true,
  touches: null,
};

export const rewriteWords = {
  label: 'Rewrite',
  actions: {},
  says: ({ end, forgotten }) => `What is to come is rewritten${end()}.${forgotten()}`,
} satisfies CommandWords<'rewrite'>;
