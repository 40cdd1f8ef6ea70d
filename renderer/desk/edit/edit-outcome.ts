/*
 * What an edited text would come to in the run as it stands: its faults, why the run would refuse it, or its timetable
 * and end.
 */

import { openPlan } from '../../../app/core/plan/open-plan.ts';
import type { Plan } from '../../../app/core/plan/plan.ts';
import { warningsOf } from '../../../app/core/plan/warnings/warnings.ts';
import type { Fault } from '../../../app/core/result.ts';
import type { RunView } from '../../../app/core/run/view.ts';
import { firstLineGiven, forgottenIn } from '../../../app/core/run/view/editing.ts';
import { endIsEstimate } from '../../../app/core/run/view/estimate.ts';
import { tried } from '../../../app/core/run/view/trial.ts';
import type { Millis } from '../../../app/core/units.ts';
import type { DeckRun } from '../../link/store.ts';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { offeredMends, type OfferedMend } from '../editor/faults/fault-mends.ts';
import { spanOf } from '../run/fit-cache.ts';
import { timetableOf, type LiveTimes, type Timetable } from '../timetable/timetable-rows.ts';
import { warningGroups, type WarningGroup } from '../timetable/warning-groups.ts';

export type Outcome =
  | { readonly kind: 'faults'; readonly faults: readonly Fault[]; readonly mends: readonly OfferedMend[] }
  /** The text can be read, but the run would refuse it now. */
  | { readonly kind: 'refused'; readonly why: string; readonly plan: Plan }
  | {
      readonly kind: 'fits';
      readonly plan: Plan;
      readonly warnings: readonly WarningGroup[];
      readonly table: Timetable;
      /** The projected end with it, and as it is now, in ms since the run was opened. */
      readonly end: Millis;
      readonly endNow: Millis;
      /** Whether the end with it is an estimate. */
      readonly isEstimate: boolean;
      /** The cuts and changed intervals that it would make the run forget; none where it is the text in force. */
      readonly forgets: ReturnType<typeof forgottenIn>;
    };

/** Makes the function that works it out, and keeps the last answer: it costs as much as opening a session. */
export function createOutcomeCache(): (moment: RunMoment, text: string) => Outcome {
  let known = '';
  let before: DeckRun['state'] | null = null;
  let kept: Outcome | null = null;
  return (moment, text) => {
    const { run, view } = moment;
    const key = `${view.phase} ${view.index} ${spanOf(view)} ${text}`;
    if (kept === null || before !== run.state || known !== key) kept = outcomeOf(moment, text);
    known = key;
    before = run.state;
    return kept;
  };
}

function outcomeOf({ run, view }: RunMoment, text: string): Outcome {
  const { source } = view.plan;
  const isSame = text === source.text;
  const opened = isSame ? { ok: true as const, value: view.plan } : openPlan({ ...source, text }, view.plan);
  if (!opened.ok) {
    const { faults } = opened.faults;
    return { kind: 'faults', faults, mends: opened.faults.in === 'session' ? offeredMends(text, faults) : [] };
  }
  const trial = isSame ? { ok: true as const, after: view } : tried(view, { do: 'rewrite', text });
  if (!trial.ok) return { kind: 'refused', why: trial.why, plan: opened.value };
  const { after } = trial;
  const first = firstLineGiven(view);
  const plan = asRun(opened.value, after);
  return {
    kind: 'fits',
    plan,
    warnings: warningGroups(
      warningsOf(plan).filter(
        // No warnings about what has begun: it cannot be changed. The end is shown by itself.
        ({ code, line, lane }) => line >= first && code !== 'over-time' && (lane === null || isIn(after, lane)),
      ),
    ),
    table: timetableOf(plan, liveTimes(after, run.openedAtTimeOfDay)),
    end: after.projectedEnd,
    endNow: view.projectedEnd,
    isEstimate: endIsEstimate(after),
    forgets: forgottenIn(view, after),
  };
}

/** The plan with swimmers, gaps, intervals and reps as they are in the run. */
function asRun(plan: Plan, { lanes, stretches }: RunView): Plan {
  const now = new Map(lanes.map((lane) => [lane.number, lane]));
  const asNow = plan.session.lanes.map((lane) => {
    const { swimmers, gap } = now.get(lane.number) ?? lane;
    return { ...lane, swimmers, gap };
  });
  return { ...plan, stretches, session: { ...plan.session, lanes: asNow } };
}

function isIn({ lanes }: RunView, number: number): boolean {
  return lanes.some((lane) => lane.number === number && lane.state !== 'out');
}

function liveTimes({ projectedTimes, stretches, index: current, cuts, lanes }: RunView, openedAt: Millis): LiveTimes {
  const parts = new Map<number, { start: Millis; end: Millis }>();
  projectedTimes.forEach(({ start, end }, index) => {
    const { partIndex } = stretches[current + index]!;
    parts.set(partIndex, { start: parts.get(partIndex)?.start ?? start, end });
  });
  return { parts, openedAt, cuts, lanes: lanes.filter(({ state }) => state !== 'out') };
}
