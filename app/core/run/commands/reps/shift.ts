/*
 * `shift`: moves the leaves to come, or the end of a talk or break, later or sooner.
 */

import { SECOND, type Millis } from '../../../units.ts';
import { changeLanes, choose, done, no, type Outcome } from '../../command/answer.ts';
import { CHANGE, LANES, optional, type FieldsOf } from '../../command/command-fields.ts';
import type { CommandOf } from '../../command/command.ts';
import type { Rule } from '../../command/command-rule.ts';
import type { CommandWords, Told } from '../../command/command-words.ts';
import { displaced, LEFT, NOT_GOING, unlessTooSoon } from '../../command/lane-change.ts';
import { currentStretch, isPending, type RunState } from '../../state.ts';

type Named = readonly number[] | undefined;

const fields = { lanes: optional(LANES), seconds: CHANGE };

declare module '../../command/command.ts' {
  interface CommandFields {
    readonly shift: FieldsOf<typeof fields>;
  }
}

export const shift: Rule<'shift'> = {
  fields,
  carryOut: (now, { lanes, seconds }, at) => shifted(now, lanes, seconds, at),
  steers: true,
  touches: isPending,
};

/** Seconds of one press of "−5 s" or "+5 s". */
const STEP = 5;

export const shiftWords = {
  label: ({ seconds }) => (seconds > 0 ? `+${seconds} s` : `−${-seconds} s`),
  actions: {
    sooner: {
      label: '−5 s',
      key: 'minus',
      typed: ['-', '−'],
      does: 'sooner',
      pressed: false,
      byChoice: true,
      remote: 'more',
      command: (lanes) => ({ do: 'shift', ...lanes, seconds: -STEP }),
    },
    later: {
      label: '+5 s',
      key: 'plus',
      typed: ['+', '='],
      does: 'later',
      pressed: false,
      byChoice: true,
      remote: 'few',
      command: (lanes) => ({ do: 'shift', ...lanes, seconds: STEP }),
    },
  },
  says: shiftText,
} satisfies CommandWords<'shift'>;

function shifted(state: RunState, named: Named, seconds: number, t: Millis): Outcome {
  if (state.phase !== 'going') return no(NOT_GOING);
  const by = seconds * SECOND;
  if (currentStretch(state).kind !== 'swim') return shiftPause(state, named, by, t);
  const chosen = choose(state, named, isPending, LEFT);
  if (!chosen.ok) return chosen;
  return unlessTooSoon(
    state,
    changeLanes(state, chosen.lanes, (lane) => displaced(lane, by)),
    t,
  );
}

/** Moves the end of a talk or break, for all lanes. Before it has begun, its beginning moves too. */
function shiftPause(state: RunState, named: Named, by: Millis, t: Millis): Outcome {
  const chosen = choose(state, named);
  if (!chosen.ok) return chosen;
  const ahead = state.t0 !== null && t < state.t0;
  const pauseEnd = state.pauseEnd + by;
  const { kind } = currentStretch(state);
  if (pauseEnd <= t) return no(`The ${kind} would already be over: use Start or Move on.`);
  if (!ahead) return done({ ...state, pauseEnd });
  const t0 = state.t0 + by;
  return t0 < t ? no(`The ${kind} would already have begun: use Start.`) : done({ ...state, pauseEnd, t0 });
}

function shiftText({ command: { seconds }, before, who, next }: Told<CommandOf<'shift'>>): string {
  const by = `${Math.abs(seconds)} s ${seconds > 0 ? 'later' : 'sooner'}`;
  const { kind } = currentStretch(before);
  return kind === 'swim' ? `${by} in ${who}: ${next()}.` : `The ${kind} ends ${by}.`;
}
