/*
 * Keeps the answer to which cuts save the hour, because working it out tries many. It is worked out again after a
 * command, when a stretch begins, and every five seconds.
 */

import type { Fit } from '../../../app/core/run/hour/fit.ts';
import type { RunView } from '../../../app/core/run/view.ts';
import { fitOf, singleCutsOf } from '../../../app/core/run/view/late.ts';
import { MINUTE, SECOND } from '../../../app/core/units.ts';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { finishAfter } from '../../../app/core/run/hour/booked-finish.ts';

/** With less than this in hand, cuts are offered before they are needed. */
const TIGHT = 5 * MINUTE;

/** How old an answer may be if no command was given and nothing began. */
const KEPT_FOR = 5 * SECOND;

/** For a session with more stretches, the passing of time alone is no reason to work it out again. */
const MANY = 1000;

/** Stays the same for as long as an answer may be kept. */
export function spanOf({ stretches, t }: RunView): number {
  return stretches.length > MANY ? 0 : Math.floor(t / KEPT_FOR);
}

/** Makes the function that gives the answer; null for a session without a finish. */
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
