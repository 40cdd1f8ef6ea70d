/*
 * What the big button does now, and what is offered beside it: the same in the coach's window and on the remote, and
 * always for all lanes.
 */

import type { RunView } from '../../../../app/core/run/view.ts';
import { startFollows } from '../../../../app/core/run/view/trial.ts';

export type Steering = 'start' | 'stop' | 'resume' | 'rejoin' | 'finish';

export interface Primary {
  /** null if nothing is left to start or stop. */
  readonly main: Exclude<Steering, 'rejoin'> | null;
  readonly beside: readonly Steering[];
}

/** The first that fits: something to stop, something to resume, the end, what goes on by itself, the coach's word. */
export function primaryOf(view: RunView): Primary {
  const { phase, stretch, following, followsAt, held, lanes } = view;
  if (phase === 'done') return { main: null, beside: [] };
  const pending = phase === 'going' ? lanes.filter((lane) => lane.pending) : [];
  if (pending.some((lane) => lane.stop === null)) return { main: 'stop', beside: [] };
  if (pending.length > 0 || held) return { main: 'resume', beside: ['rejoin', ...(startFollows(view) ? START : [])] };
  if (phase === 'going' && following === null) {
    const untimed = stretch.lanes.some(({ reps }) => reps.some(({ set }) => set.untimed));
    return untimed ? { main: 'finish', beside: [] } : { main: null, beside: ['finish'] };
  }
  return followsAt === null ? { main: 'start', beside: [] } : { main: 'stop', beside: START };
}

const START: readonly Steering[] = ['start'];

/** What Space and the clicker's blank-screen key mean: never a start. */
export function stopOrResume(view: RunView): 'stop' | 'resume' {
  return primaryOf(view).main === 'resume' ? 'resume' : 'stop';
}
