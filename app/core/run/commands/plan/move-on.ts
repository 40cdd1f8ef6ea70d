/*
 * `move-on`: drops what is pending and ends the stretch. The next stretch waits for the coach; a talk or break of the
 * same part begins at once.
 */

import type { Millis } from '../../../units.ts';
import { waitsFor, type Stretch } from '../../../plan/plan.ts';
import { done, type Outcome } from '../../command/answer.ts';
import type { Rule } from '../../command/command-rule.ts';
import type { CommandWords } from '../../command/command-words.ts';
import { begin, done as doneAt, waitAt } from '../../settle.ts';
import { currentStretch, type RunState } from '../../state.ts';
import { beforeCountdown, endedJustNow } from '../../command/ways-out.ts';

declare module '../../command/command.ts' {
  interface CommandFields {
    readonly 'move-on': Readonly<Record<never, never>>;
  }
}

export const moveOn: Rule<'move-on'> = {
  fields: {},
  carryOut: (now, _, at) => movedOn(now, at),
  steers: true,
  touches: null,
  liftsStop: true,
  takesLeavesAway: true,
  givesUp: true,
};

export const moveOnWords = {
  label: 'Move on',
  actions: {
    'move-on': {
      label: 'Move on',
      key: 'Shift M',
      does: 'to what is next',
      pressed: true,
      byChoice: false,
      desk: 'row',
      remote: 'more',
      command: () => ({ do: 'move-on' }),
    },
  },
  says: ({ cameTo }) => cameTo('Moved on to'),
} satisfies CommandWords<'move-on'>;

function movedOn(state: RunState, t: Millis): Outcome {
  const bounced = endedJustNow(state, t);
  if (bounced) return bounced;
  const index = state.index + 1;
  const next = state.stretches[index];
  const passed = beforeCountdown(state, t);
  if (!next) return done(doneAt(passed, t));
  const goesOn = state.phase === 'going' && next.kind !== 'swim' && followsAtOnce(next, currentStretch(state));
  return done(goesOn ? begin({ ...passed, from: null }, index, t) : waitAt(passed, index));
}

/** Whether a talk or break begins by itself right after `before`. It does not at the start of a part or after a wait. */
function followsAtOnce(next: Stretch, before: Stretch): boolean {
  return waitsFor(next, before, false) === 'auto';
}
