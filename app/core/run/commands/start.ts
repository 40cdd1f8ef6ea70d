/*
 * `start`: the stretch that waits begins, a countdown is cut short, or the next stretch is begun by hand.
 */

import { reading } from '../../reading.ts';
import { SECOND, type Millis } from '../../units.ts';
import { align, BOUNCE, LEAD } from '../align.ts';
import { done, no, type Outcome } from '../answer.ts';
import type { Rule } from '../command-rule.ts';
import type { CommandWords, Told } from '../command-words.ts';
import { unlessTooSoon } from '../lane-change.ts';
import { begin } from '../settle.ts';
import { allStopped, currentStretch, isPending, type RunState } from '../state.ts';

declare module '../command.ts' {
  interface CommandFields {
    readonly start: Readonly<Record<never, never>>;
  }
}

export const start: Rule<'start'> = {
  fields: {},
  carryOut: (now, _, at) => begun(now, at),
  steers: true,
  touches: null,
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

const ALL_STOPPED = 'All lanes are stopped: use Resume, or Move on.';

function begun(state: RunState, t: Millis): Outcome {
  if (t < state.startedAt + BOUNCE) return no('Started just now: Start is taken again 3 s after it.');
  if (t < state.stoppedAt + BOUNCE) return no('Stopped just now: Start is taken again 3 s after it.');
  if (state.phase === 'waiting') return done(beginByHand(state, state.index, t));
  if (t < state.t0!) return startSooner(state, t);
  return startNext(state, t);
}

/** A new T0 for a stretch on the coach's word: a swim gets the lead's warning and a round reading, a talk or break none. */
function beginByHand(state: RunState, index: number, t: Millis): RunState {
  return begin(state, index, state.stretches[index]!.kind === 'swim' ? align(state, t + LEAD) : t);
}

/** During a countdown: the start comes forward, and everything with it. */
function startSooner(state: RunState, t: Millis): Outcome {
  const t0 = currentStretch(state).kind === 'swim' ? align(state, t + LEAD) : t;
  const by = t0 - state.t0!;
  if (by >= 0) {
    return no(allStopped(state) ? ALL_STOPPED : 'It cannot start sooner: everyone gets 10 s of warning.');
  }
  const lanes = state.lanes.map((lane) => ({ ...lane, origin: lane.origin + by, end: lane.end + by }));
  return unlessTooSoon(state, { ...state, t0, pauseEnd: state.pauseEnd + by, lanes }, t);
}

/** The next stretch, where nobody in this one is on their way to a leave. */
function startNext(state: RunState, t: Millis): Outcome {
  if (state.index + 1 >= state.stretches.length) return no('Nothing follows: use Finish.');
  const open = state.lanes.filter(isPending);
  if (open.some((lane) => lane.stoppedBy === null)) return no('Lanes are still going: Stop or Move on first.');
  const someoneIsThrough = state.lanes.some((lane) => lane.leftHere && !isPending(lane));
  if (open.length > 0 && !someoneIsThrough) return no(ALL_STOPPED);
  return done(beginByHand({ ...state, from: null }, state.index + 1, t));
}

function started({ at, after, stretch, capital }: Told): string {
  const current = currentStretch(after);
  if (current.kind !== 'swim') return `${capital(current.kind)} of ${reading(current.time)} has begun.`;
  const ahead = Math.max(0, Math.ceil(((after.t0 ?? at) - at) / SECOND));
  if (allStopped(after)) return `The start comes in ${ahead} s, but all lanes are stopped: Resume sends them.`;
  return `Started ${stretch(after)}, ${ahead} s ahead.`;
}
