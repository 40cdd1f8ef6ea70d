/*
 * What an edited text would come to in the run as it stands: its faults, or its timetable by the same projection as
 * the head's, and why it could not be used now.
 */

import { openPlan } from '../../../app/core/plan/open-plan.ts';
import type { Plan } from '../../../app/core/plan/plan.ts';
import { warningsOf } from '../../../app/core/plan/warnings.ts';
import type { Fault } from '../../../app/core/result.ts';
import { apply } from '../../../app/core/run/fold.ts';
import { endIsEstimate } from '../../../app/core/run/estimates.ts';
import { projectedTimes } from '../../../app/core/run/projection.ts';
import { firstLineToCome, forgottenBetween, type Forgotten } from '../../../app/core/run/rewrite.ts';
import { settleForCommand } from '../../../app/core/run/settle.ts';
import type { RunState } from '../../../app/core/run/state.ts';
import type { Millis } from '../../../app/core/units.ts';
import type { Moment } from '../../ui/coach/frames.ts';
import { spanOf } from '../run/fit-cache.ts';
import type { LiveTimes } from '../timetable/timetable-rows.ts';
import { warningGroups, type WarningGroup } from '../timetable/warning-groups.ts';

export type Outcome =
  | { readonly kind: 'faults'; readonly faults: readonly Fault[] }
  /** The text can be read, but the run would refuse it now. */
  | { readonly kind: 'refused'; readonly why: string; readonly plan: Plan }
  | {
      readonly kind: 'fits';
      readonly plan: Plan;
      readonly warnings: readonly WarningGroup[];
      readonly live: LiveTimes;
      /** The projected end with it, and as it is now, in ms since the run was opened. */
      readonly end: Millis;
      readonly endNow: Millis;
      /** Whether the end with it rests on an estimate. */
      readonly isEstimate: boolean;
      /** The cuts and changed intervals that it would make the run forget; none where it is the text in force. */
      readonly forgets: Forgotten;
    };

/** A function that gives the outcome of a text in the run of a moment; it costs as much as opening the session. */
export function createOutcomeCache(): (moment: Moment, text: string) => Outcome {
  let known = '';
  let before: RunState | null = null;
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

function outcomeOf({ run, view }: Moment, text: string): Outcome {
  const { t } = view;
  const { source } = view.state.plan;
  const now = settleForCommand(view.state, t);
  const isSame = text === source.text;
  const opened = isSame
    ? { ok: true as const, value: view.state.plan }
    : openPlan({ ...source, text }, view.state.plan);
  if (!opened.ok) return { kind: 'faults', faults: opened.faults.faults };
  const answer = isSame ? { ok: true as const, state: view.state } : apply(view.state, { do: 'rewrite', text }, t);
  if (!answer.ok) return { kind: 'refused', why: answer.why, plan: opened.value };
  const { state } = answer;
  const first = firstLineToCome(now);
  const plan = asRun(opened.value, state);
  return {
    kind: 'fits',
    plan,
    warnings: warningGroups(
      warningsOf(plan).filter(
        // What has begun cannot be mended, and the end is the projection's to tell.
        ({ code, line, lane }) => line >= first && code !== 'over-time' && (lane === null || isIn(state, lane)),
      ),
    ),
    live: liveTimes(state, t, run.openedAtTimeOfDay),
    end: endOf(state, t),
    endNow: view.projectedEnd,
    isEstimate: endIsEstimate(state),
    forgets: forgottenBetween(view.state, state),
  };
}

/** The plan with swimmers, gaps, intervals and reps as they are in the run. */
function asRun(plan: Plan, { lanes, stretches }: RunState): Plan {
  const now = new Map(lanes.map((lane) => [lane.number, lane]));
  const asNow = plan.session.lanes.map((lane) => {
    const { swimmers, gap } = now.get(lane.number) ?? lane;
    return { ...lane, swimmers, gap };
  });
  return { ...plan, stretches, session: { ...plan.session, lanes: asNow } };
}

function isIn({ lanes }: RunState, number: number): boolean {
  return lanes.some((lane) => lane.number === number && lane.in);
}

function liveTimes(state: RunState, t: Millis, openedAt: Millis): LiveTimes {
  const parts = new Map<number, { start: Millis; end: Millis }>();
  projectedTimes(state, t).forEach(({ start, end }, index) => {
    const { partIndex } = state.stretches[state.index + index]!;
    parts.set(partIndex, { start: parts.get(partIndex)?.start ?? start, end });
  });
  return { parts, openedAt, cuts: state.cuts, lanes: state.lanes.filter((lane) => lane.in) };
}

function endOf(state: RunState, t: Millis): Millis {
  if (state.phase === 'done') return state.doneAt ?? t;
  const times = projectedTimes(state, t);
  return times[times.length - 1]?.end ?? t;
}
