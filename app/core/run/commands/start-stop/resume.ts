/*
 * `resume`: stopped lanes go on. If that is at least the lead before their next leave, they keep their times. If it
 * is later, they restart on a round reading.
 */

import type { Millis } from '../../../units.ts';
import { align, LEAD } from '../../align.ts';
import { changeLanes, choose, done, type Outcome } from '../../command/answer.ts';
import { LANES, optional, type FieldsOf } from '../../command/command-fields.ts';
import type { Rule } from '../../command/command-rule.ts';
import type { CommandWords } from '../../command/command-words.ts';
import { displaced, isStopped, STOPPED } from '../../command/lane-change.ts';
import { nextLeave, type RunState } from '../../state.ts';

const fields = { lanes: optional(LANES) };

declare module '../../command/command.ts' {
  interface CommandFields {
    readonly resume: FieldsOf<typeof fields>;
  }
}

export const resume: Rule<'resume'> = {
  fields,
  carryOut: (now, { lanes }, at) => resumed(now, lanes, at),
  steers: true,
  touches: isStopped,
  liftsStop: true,
  sign: 'resume',
  keepsTime: 'resumedAt',
};

export const resumeWords = {
  label: 'Resume',
  actions: {
    resume: {
      label: 'Resume',
      key: 'Space',
      clicker: ['b', '.'],
      does: '',
      pressed: false,
      byChoice: false,
      command: (lanes) => ({ do: 'resume', ...lanes }),
    },
  },
  says: ({ touched, who, earlier, next, follows }) =>
    touched.length > 0 ? `Resumed ${who}${earlier()}: ${next()}.` : `Resumed: ${follows()}.`,
} satisfies CommandWords<'resume'>;

function resumed(state: RunState, named: readonly number[] | undefined, t: Millis): Outcome {
  const chosen = choose(state, named, isStopped, STOPPED);
  if (chosen.ok) return done({ ...resumeLanes(state, chosen.lanes, t), heldAfter: false });
  const holdsOnlyWhatFollows = state.heldAfter && !state.lanes.some(isStopped);
  return holdsOnlyWhatFollows && !named ? done({ ...state, heldAfter: false }) : chosen;
}

/**
 * Sets those of the chosen lanes going again that are stopped. Lanes that one command stopped move together, by
 * one amount.
 */
export function resumeLanes(state: RunState, chosen: ReadonlySet<number>, t: Millis): RunState {
  const earliest = new Map<number, Millis>();
  state.lanes.forEach((lane, index) => {
    if (lane.stoppedBy === null || !chosen.has(index)) return;
    earliest.set(lane.stoppedBy, Math.min(nextLeave(lane), earliest.get(lane.stoppedBy) ?? Infinity));
  });
  return changeLanes(state, chosen, (lane) => {
    if (lane.stoppedBy === null) return lane;
    const first = earliest.get(lane.stoppedBy)!;
    const delay = first >= t + LEAD ? 0 : align(state, t + LEAD) - first;
    return { ...displaced(lane, delay), stoppedBy: null };
  });
}
