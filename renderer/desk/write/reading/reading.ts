/*
 * The reading of a session's text, as it is asked for and answered: what it comes to, the cuts that keep its hour, what a
 * line of it means. It is done in a worker, or in the page where there is none.
 */

import { openPlan } from '../../../../app/core/plan/open-plan.ts';
import type { Plan, Source } from '../../../../app/core/plan/plan.ts';
import { lineMeaning, type LineMeaning } from '../../timetable/line-meaning.ts';
import { writtenFit, type WrittenFit } from '../../timetable/written-cuts.ts';
import { writtenOutcome, type WrittenOutcome } from '../../timetable/written-outcome.ts';

export type Asked =
  | { readonly do: 'read' | 'fit'; readonly source: Source }
  /** Of the text read last. */
  | { readonly do: 'explain'; readonly line: number };

export type Answered = {
  readonly read: WrittenOutcome;
  readonly fit: WrittenFit | null;
  readonly explain: LineMeaning | null;
};

export type Answer = (asked: Asked) => Answered[Asked['do']];

export function createReading(): Answer {
  let plan: Plan | null = null;
  let before: Plan | null = null;
  return (asked) => {
    if (asked.do === 'explain') return plan && lineMeaning(plan, asked.line);
    if (asked.do === 'read') {
      const read = writtenOutcome(asked.source, before);
      plan = read.plan;
      before = plan ?? before;
      return read.outcome;
    }
    const opened = openPlan(asked.source);
    return opened.ok ? writtenFit(opened.value) : null;
  };
}
