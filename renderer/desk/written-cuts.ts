/*
 * The cuts that bring a written session back to its finish, each as the text that it would leave, and
 * what it then really saves.
 */

import { openPlan } from '../../app/core/plan/open-plan.ts';
import type { Plan } from '../../app/core/plan/plan.ts';
import { totalsOf } from '../../app/core/plan/totals.ts';
import { fitPlan, type CutOption, type Fit } from '../../app/core/run/fit.ts';
import { textWithCut } from '../../app/core/session/text-cut.ts';
import type { Millis } from '../../app/core/units.ts';

export interface WrittenCut extends Pick<CutOption, 'line' | 'n' | 'of' | 'kind'> {
  /** The session with this cut alone. */
  readonly text: string;
  /** By how much the plan ends sooner with it alone. */
  readonly saves: Millis;
  readonly endsAt: Millis;
}

export interface WrittenFit {
  readonly fit: Fit;
  readonly cuts: readonly WrittenCut[];
}

/** null without a start and a finish. Times are those of the text that is left, so that a tap brings what it says. */
export function writtenFit(plan: Plan): WrittenFit | null {
  const fit = fitPlan(plan);
  if (!fit) return null;
  const { text: now, lanesText } = plan.source;
  const { duration } = totalsOf(plan);
  const cuts = fit.cuts.map(({ line, n, of, kind }) => {
    const text = textWithCut(now, plan.session.pool, line, n);
    const opened = openPlan({ text, lanesText }, plan);
    if (!opened.ok) throw new Error(`a cut of line ${line} leaves no session`);
    const endsAt = totalsOf(opened.value).duration;
    return { line, n, of, kind, text, saves: duration - endsAt, endsAt };
  });
  return { fit, cuts };
}
