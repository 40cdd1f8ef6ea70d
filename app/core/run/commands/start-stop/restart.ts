/*
 * `restart`: goes back to the start of this stretch, which waits, whole again. While a stretch waits, it goes back to
 * the stretch before.
 */

import type { Millis } from '../../../units.ts';
import { done, no, type Outcome } from '../../command/answer.ts';
import type { Rule } from '../../command/command-rule.ts';
import type { CommandWords } from '../../command/command-words.ts';
import type { RunState } from '../../state.ts';
import { beforeCountdown, endedJustNow, waitAtWhatIsLeft } from '../../command/ways-out.ts';

declare module '../../command/command.ts' {
  interface CommandFields {
    readonly restart: Readonly<Record<never, never>>;
  }
}

export const restart: Rule<'restart'> = {
  fields: {},
  carryOut: (now, _, at) => restarted(now, at),
  steers: true,
  touches: null,
  takesLeavesAway: true,
  givesUp: true,
};

export const restartWords = {
  label: 'Restart',
  actions: {
    restart: {
      label: 'Restart',
      key: 'Shift R',
      does: 'back to the last start',
      pressed: true,
      byChoice: false,
      desk: 'row',
      command: () => ({ do: 'restart' }),
    },
  },
  says: ({ cameTo }) => cameTo('Back at'),
} satisfies CommandWords<'restart'>;

function restarted(state: RunState, t: Millis): Outcome {
  const bounced = endedJustNow(state, t);
  if (bounced) return bounced;
  if (state.phase === 'going') return done(waitAtWhatIsLeft(beforeCountdown(state, t), state.index, t));
  if (state.index === 0) return no('This is the first stretch: there is nothing before it to go back to.');
  return done(waitAtWhatIsLeft(state, state.index - 1, t));
}
