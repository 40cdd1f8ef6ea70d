/*
 * How many reps and rounds there now are, after cuts, of what no lane has as its next yet.
 */

import type { Rep } from '../../plan/plan.ts';
import { countNow, type CountNow } from '../cuts/standing.ts';
import type { RunView } from '../view.ts';

/** Of a rep of a lane, by its place in lane order, in one of the view's stretches. */
export function countIn(view: Pick<RunView, 'cuts' | 'stretches'>, rep: Rep, lane: number): CountNow {
  return countNow(view, rep, lane);
}
