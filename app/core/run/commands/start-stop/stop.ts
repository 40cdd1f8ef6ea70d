/*
 * `stop`: nobody leaves until the coach says so. If no lanes are named, what follows waits too.
 */

import type { Millis } from '../../../units.ts';
import { tailOf } from '../../../plan/schedule.ts';
import { changeLanes, choose, done, no, type Lacking, type Outcome } from '../../command/answer.ts';
import { LANES, optional, type FieldsOf } from '../../command/command-fields.ts';
import type { Rule } from '../../command/command-rule.ts';
import type { CommandWords } from '../../command/command-words.ts';
import { NOT_GOING } from '../../command/lane-change.ts';
import { nextWaits } from '../../settle.ts';
import { currentStretch, isPending, type RunState } from '../../state.ts';

const GOING: Lacking = {
  none: 'is going: each is stopped already or has no reps to come',
  one: 'is stopped already or has no reps to come',
};

const fields = { lanes: optional(LANES) };

declare module '../../command/command.ts' {
  interface CommandFields {
    readonly stop: FieldsOf<typeof fields>;
  }
}

export const stop: Rule<'stop'> = {
  fields,
  carryOut: (now, { lanes }, at) => stopped(now, lanes, at),
  steers: true,
  touches: null,
  takesLeavesAway: true,
  sign: 'stop',
  keepsTime: 'stoppedAt',
};

export const stopWords = {
  label: 'Stop',
  actions: {
    stop: {
      label: 'Stop',
      key: 'Space',
      clicker: ['b', '.'],
      does: '',
      pressed: false,
      byChoice: false,
      command: (lanes) => ({ do: 'stop', ...lanes }),
    },
  },
  says: ({ touched, who, before, kind }) =>
    touched.length > 0 ? `Stopped ${who}.` : `Held: what follows the ${kind(before)} waits for Resume.`,
} satisfies CommandWords<'stop'>;

export function stopped(state: RunState, named: readonly number[] | undefined, t: Millis): Outcome {
  if (state.phase !== 'going') return no(NOT_GOING);
  const stops = state.stops + 1;
  if (currentStretch(state).kind !== 'swim') {
    return named
      ? no('This is a talk or break: use Stop for all lanes, not for single ones.')
      : done({ ...state, stops, heldAfter: true });
  }
  const chosen = choose(state, named, (lane) => isPending(lane) && lane.stoppedBy === null, GOING);
  if (!chosen.ok) {
    if (named) return chosen;
    if (beginsByItself(state)) return done({ ...state, stops, heldAfter: true });
    return onlyTailsLeave(state, t)
      ? no('Every lead has left: the swimmers behind follow and cannot be stopped.')
      : chosen;
  }
  const held = changeLanes(state, chosen.lanes, (lane) => ({ ...lane, stoppedBy: stops }));
  return done({ ...held, stops, heldAfter: state.heldAfter || !named });
}

/** Whether the next stretch would begin without the coach's word. */
function beginsByItself(state: RunState): boolean {
  return state.index + 1 < state.stretches.length && !nextWaits(state);
}

function onlyTailsLeave({ lanes }: RunState, t: Millis): boolean {
  return !lanes.some(isPending) && lanes.some(({ leftHere, last }) => leftHere && last!.at + tailOf(last!) > t);
}
