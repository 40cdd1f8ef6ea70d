/*
 * `rejoin`: stopped lanes go back to their old times. The reps they have missed are dropped.
 */

import type { Millis } from '../../../units.ts';
import { LEAD } from '../../align.ts';
import { changeLanes, choose, done, type Outcome } from '../../command/answer.ts';
import { LANES, optional, type FieldsOf } from '../../command/command-fields.ts';
import type { Rule } from '../../command/command-rule.ts';
import type { CommandWords, Told } from '../../command/command-words.ts';
import { isStopped, STOPPED } from '../../command/lane-change.ts';
import { isPending, type RunState } from '../../state.ts';

const fields = { lanes: optional(LANES) };

declare module '../../command/command.ts' {
  interface CommandFields {
    readonly rejoin: FieldsOf<typeof fields>;
  }
}

export const rejoin: Rule<'rejoin'> = {
  fields,
  carryOut: (now, { lanes }, at) => rejoined(now, lanes, at),
  steers: true,
  touches: isStopped,
  liftsStop: true,
  sign: 'resume',
};

export const rejoinWords = {
  label: 'Rejoin',
  actions: {
    rejoin: {
      label: 'Rejoin',
      key: 'J',
      does: 'back into the old times',
      pressed: false,
      byChoice: true,
      command: (lanes) => ({ do: 'rejoin', ...lanes }),
    },
  },
  says: (told) => `Rejoined the old times in ${told.who}${told.earlier()}${missedText(told)}: ${told.next()}.`,
} satisfies CommandWords<'rejoin'>;

function rejoined(state: RunState, named: readonly number[] | undefined, t: Millis): Outcome {
  const chosen = choose(state, named, isStopped, STOPPED);
  if (!chosen.ok) return chosen;
  const back = changeLanes(state, chosen.lanes, (lane) => {
    const missed = lane.reps.findIndex((rep, index) => index >= lane.next && lane.origin + rep.offset >= t + LEAD);
    return { ...lane, stoppedBy: null, next: missed < 0 ? lane.reps.length : missed };
  });
  const somethingLeft = back.lanes.some((lane, index) => chosen.lanes.has(index) && isPending(lane));
  return done({ ...back, heldAfter: state.heldAfter && !somethingLeft });
}

function missedText({ touched, count }: Told<unknown>): string {
  const missed = Math.max(...touched.map(({ was, is }) => is.next - was.next));
  return missed > 0 ? `, ${count(missed, 'rep')} missed` : '';
}
