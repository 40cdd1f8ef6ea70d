/*
 * `rewrite`: replaces the text of what is still to come.
 */

import { TEXT, type FieldsOf } from '../../command/command-fields.ts';
import type { Rule } from '../../command/command-rule.ts';
import type { CommandWords } from '../../command/command-words.ts';
import { rewritten } from '../../rewrite.ts';

const fields = { text: TEXT };

declare module '../../command/command.ts' {
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
  label: 'New text',
  actions: {},
  says: ({ end, forgotten }) => `Rewrote what is to come${end()}.${forgotten()}`,
} satisfies CommandWords<'rewrite'>;
