/*
 * The one action that a moment asks for, and what is offered beside it: the same on the coach's window and
 * the remote, and always for all lanes.
 */

import type { RunView } from '../../../app/core/run/view.ts';
import { isPending } from '../../../app/core/run/state.ts';
import { refusalOf } from './refusal.ts';

export type Steering = 'start' | 'stop' | 'resume' | 'rejoin' | 'finish';

export interface Primary {
  /** null where nothing is left to start or stop. */
  readonly main: Exclude<Steering, 'rejoin'> | null;
  readonly beside: readonly Steering[];
}

/** The first that fits: something to stop, something to resume, the end, what goes on by itself, the coach's word. */
export function primaryOf(view: RunView): Primary {
  const { phase, stretch, following, followsAt, held, state } = view;
  if (phase === 'done') return { main: null, beside: [] };
  const pending = phase === 'going' ? state.lanes.filter(isPending) : [];
  if (pending.some((lane) => lane.stoppedBy === null)) return { main: 'stop', beside: [] };
  if (pending.length > 0 || held) return { main: 'resume', beside: ['rejoin', ...(startFollows(view) ? START : [])] };
  if (phase === 'going' && following === null) {
    const untimed = stretch.lanes.some(({ reps }) => reps.some(({ set }) => set.untimed));
    return untimed ? { main: 'finish', beside: [] } : { main: null, beside: ['finish'] };
  }
  return followsAt === null ? { main: 'start', beside: [] } : { main: 'stop', beside: START };
}

const START: readonly Steering[] = ['start'];

/** Whether a Start is for this moment, be it that one so soon after a Start or Stop is not taken yet. */
function startFollows({ state, t }: Pick<RunView, 'state' | 't'>): boolean {
  return refusalOf({ ...state, startedAt: -Infinity, stoppedAt: -Infinity }, { do: 'start' }, t) === null;
}

/** What Space and the clicker's blank-screen key mean: never a start. */
export function stopOrResume(view: RunView): 'stop' | 'resume' {
  return primaryOf(view).main === 'resume' ? 'resume' : 'stop';
}
