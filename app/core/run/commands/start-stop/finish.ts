/*
 * `finish`: the session ends now.
 */

import { done } from '../../command/answer.ts';
import type { Rule } from '../../command/command-rule.ts';
import type { CommandWords } from '../../command/command-words.ts';
import { done as doneAt } from '../../settle.ts';
import { beforeCountdown } from '../../command/ways-out.ts';

declare module '../../command/command.ts' {
  interface CommandFields {
    readonly finish: Readonly<Record<never, never>>;
  }
}

export const finish: Rule<'finish'> = {
  fields: {},
  carryOut: (now, _, at) => done(doneAt(beforeCountdown(now, at), at)),
  steers: true,
  touches: null,
  takesLeavesAway: true,
};

export const finishWords = {
  label: 'Finish',
  actions: {
    finish: {
      label: 'Finish',
      key: 'Shift F',
      does: 'ends the session',
      pressed: true,
      byChoice: false,
      desk: 'row',
      command: () => ({ do: 'finish' }),
    },
  },
  says: () => 'Finished.',
} satisfies CommandWords<'finish'>;
