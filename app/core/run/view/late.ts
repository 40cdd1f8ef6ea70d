/*
 * Fitting the hour as a screen asks for it. Both try many cuts: far too much for every frame.
 */

import type { Millis } from '../../units.ts';
import { fit, singleCuts, type CutOption, type Fit } from '../hour/fit.ts';
import type { RunView } from '../view.ts';
import { stateOf } from './settled.ts';

/** By how much the session runs over `finishAt` (ms since the run was opened), and what brings it back. */
export function fitOf(view: RunView, finishAt: Millis): Fit {
  return fit(stateOf(view), view.t, finishAt);
}

/** The smallest cut of every line that brings the end forward, for where it may get late. */
export function singleCutsOf(view: RunView): readonly CutOption[] {
  return singleCuts(stateOf(view), view.t);
}
