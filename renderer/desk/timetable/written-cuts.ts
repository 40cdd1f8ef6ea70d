/*
 * The cuts that would end a written session by its finish. Each comes with the text it would leave and what it then
 * saves: alone if one is enough, else together with those before it.
 */

import { openPlan } from '../../../app/core/plan/open-plan.ts';
import type { Plan } from '../../../app/core/plan/plan.ts';
import { totalsOf } from '../../../app/core/plan/totals.ts';
import { fitPlan, type CutOption, type Fit } from '../../../app/core/run/hour/fit.ts';
import { textWithCut } from '../../../app/core/session/text/text-cut.ts';

export interface WrittenCut extends CutOption {
  /** The session with this cut alone. */
  readonly text: string;
}

export interface WrittenFit {
  readonly fit: Fit;
  readonly cuts: readonly WrittenCut[];
}

/** null without a start and a finish. Savings are measured on the shortened texts, so that a tap saves what it says. */
export function writtenFit(plan: Plan): WrittenFit | null {
  const fit = fitPlan(plan);
  if (!fit) return null;
  const cuts: WrittenCut[] = [];
  let before = { plan, end: totalsOf(plan).duration };
  for (const option of fit.cuts) {
    const after = withCut(before.plan, option);
    const text = textWithCut(plan.source.text, plan.session.pool, option.line, option.n);
    cuts.push({ ...option, text, saves: before.end - after.end, endsAt: after.end });
    if (fit.serves !== 'each') before = after;
  }
  return { fit, cuts };
}

function withCut(before: Plan, { line, n }: CutOption): { readonly plan: Plan; readonly end: number } {
  const { source, session } = before;
  const text = textWithCut(source.text, session.pool, line, n);
  const opened = openPlan({ text, lanesText: source.lanesText }, before);
  if (!opened.ok) throw new Error(`a cut of line ${line} leaves no session`);
  return { plan: opened.value, end: totalsOf(opened.value).duration };
}
