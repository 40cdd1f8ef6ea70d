/*
 * `start`: begins the stretch that waits, cuts a countdown short, or begins the next stretch by hand.
 */

import { reading } from '../../../words/time/reading.ts';
import { SECOND, type Millis } from '../../../units.ts';
import { align, BOUNCE, LEAD } from '../../align.ts';
import { done, no, type Outcome } from '../../command/answer.ts';
import type { Rule } from '../../command/command-rule.ts';
import type { CommandWords, Told } from '../../command/command-words.ts';
import { unlessTooSoon } from '../../command/lane-change.ts';
import { begin } from '../../settle.ts';
import { allStopped, currentStretch, isPending, type RunState } from '../../state.ts';

declare module '../../command/command.ts' {
  interface CommandFields {
    readonly start: Readonly<Record<never, never>>;
  }
}

export const start: Rule<'start'> = {
  fields: {},
  carryOut: (now, _, at) => begun(now, at),
  steers: true,
  touches: null,
  liftsStop: true,
  keepsTime: 'startedAt',
};

export const startWords = {
  label: 'Start',
  actions: {
    start: {
      label: 'Start',
      key: 'Enter',
      clicker: ['PageDown'],
      does: '',
      pressed: false,
      byChoice: false,
      command: () => ({ do: 'start' }),
    },
  },
  says: started,
} satisfies CommandWords<'start'>;

const ALL_STOPPED = 'All lanes are stopped: use Resume or Move on.';

function begun(state: RunState, t: Millis): Outcome {
  if (t < state.startedAt + BOUNCE) return no('Start was given less than 3 s ago: press it again in a moment.');
  if (t < state.stoppedAt + BOUNCE) return no('Stop was given less than 3 s ago: press Start again in a moment.');
  if (state.phase === 'waiting') return done(beginByHand(state, state.index, t));
  if (t < state.t0!) return startSooner(state, t);
  return startNext(state, t);
}

/** Begins a stretch at the coach's word: a swim on a round reading, LEAD from now at the earliest; a talk or break now. */
function beginByHand(state: RunState, index: number, t: Millis): RunState {
  return begin(state, index, state.stretches[index]!.kind === 'swim' ? align(state, t + LEAD) : t);
}

/** During a countdown: the start comes forward, and everything with it. */
function startSooner(state: RunState, t: Millis): Outcome {
  const t0 = currentStretch(state).kind === 'swim' ? align(state, t + LEAD) : t;
  const by = t0 - state.t0!;
  if (by >= 0) {
    return no(allStopped(state) ? ALL_STOPPED : 'The start cannot come any sooner: every lane gets 10 s of warning.');
  }
  const lanes = state.lanes.map((lane) => ({ ...lane, origin: lane.origin + by, end: lane.end + by }));
  return unlessTooSoon(state, { ...state, t0, pauseEnd: state.pauseEnd + by, lanes }, t);
}

/** Begins the next stretch. Refuses while a lane that is not stopped has reps to come in this one. */
function startNext(state: RunState, t: Millis): Outcome {
  if (state.index + 1 >= state.stretches.length) return no('This is the last stretch: use Finish to end the session.');
  const open = state.lanes.filter(isPending);
  if (open.some((lane) => lane.stoppedBy === null)) return no('Lanes are still going: use Stop or Move on first.');
  const someoneIsThrough = state.lanes.some((lane) => lane.leftHere && !isPending(lane));
  if (open.length > 0 && !someoneIsThrough) return no(ALL_STOPPED);
  return done(beginByHand({ ...state, from: null }, state.index + 1, t));
}

function started({ at, after, stretch, capital }: Told): string {
  const current = currentStretch(after);
  if (current.kind !== 'swim') return `${capital(current.kind)} of ${reading(current.time)} has begun.`;
  const ahead = Math.max(0, Math.ceil(((after.t0 ?? at) - at) / SECOND));
  if (allStopped(after)) return `The start is in ${ahead} s, but all lanes are stopped: use Resume to send them.`;
  return `Started ${stretch(after)}: first leave in ${ahead} s.`;
}
