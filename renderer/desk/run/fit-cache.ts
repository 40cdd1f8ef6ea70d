/*
 * Fitting the hour tries many cuts, so its answer is kept until something was commanded or began, and for
 * five seconds at most.
 */

import type { Fit } from '../../../app/core/run/hour/fit.ts';
import type { RunView } from '../../../app/core/run/view.ts';
import { fitOf, singleCutsOf } from '../../../app/core/run/view/late.ts';
import { MINUTE, SECOND } from '../../../app/core/units.ts';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { finishAfter } from '../../../app/core/run/hour/booked-finish.ts';

/** With less than this in hand, cuts are offered before they are needed. */
const TIGHT = 5 * MINUTE;

/** How old what is worked out from a run may be while nothing is commanded or begins. */
const KEPT_FOR = 5 * SECOND;

/** A session with more stretches is not worked out again only because time has passed. */
const MANY = 1000;

/** The same for moments whose answer is kept as far as the passing of time goes. */
export function spanOf({ stretches, t }: RunView): number {
  return stretches.length > MANY ? 0 : Math.floor(t / KEPT_FOR);
}

/** A function that gives the fit of a moment; null for a session without a finish. */
export function createFitCache(): (moment: RunMoment) => Fit | null {
  let known = '';
  let kept: Fit | null = null;
  return (moment) => {
    const { run, view } = moment;
    const key = `${run.id} ${run.commands.length} ${view.phase} ${view.index} ${spanOf(view)}`;
    if (key !== known) kept = fitNow(moment);
    known = key;
    return kept;
  };
}

function fitNow({ run, view }: RunMoment): Fit | null {
  const { finishBy } = view.plan.session;
  if (finishBy === null) return null;
  const fitted = fitOf(view, finishAfter(run.openedAtTimeOfDay, finishBy));
  if (fitted.over > 0 || fitted.over < -TIGHT || view.phase === 'done') return fitted;
  return { ...fitted, cuts: singleCutsOf(view) };
}
