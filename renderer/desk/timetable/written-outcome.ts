/*
 * What a text comes to, as it stands beside it: its faults, or the timetable, the hour and the warnings. All of it is
 * plain data, which a worker can send.
 */

import { openPlan } from '../../../app/core/plan/open-plan.ts';
import type { Plan, Source } from '../../../app/core/plan/plan.ts';
import { warningsOf } from '../../../app/core/plan/warnings/warnings.ts';
import type { Fault } from '../../../app/core/result.ts';
import { isOnlyBegun } from '../../../app/core/session/parse.ts';
import { offeredMends, type OfferedMend } from '../editor/faults/fault-mends.ts';
import { hourPicture, type HourPicture } from '../hour/hour-bars.ts';
import { timetableOf, type Timetable } from './timetable-rows.ts';
import { warningGroups, type WarningGroup } from './warning-groups.ts';

export type WrittenOutcome =
  | { readonly kind: 'nothing' }
  | {
      readonly kind: 'faults';
      readonly in: 'session' | 'lanes';
      readonly faults: readonly Fault[];
      readonly mends: readonly OfferedMend[];
    }
  | {
      readonly kind: 'fits';
      readonly table: Timetable;
      readonly hour: HourPicture;
      readonly warnings: readonly WarningGroup[];
    };

/** The outcome, and the plan where there is one. */
export function writtenOutcome(source: Source): { readonly outcome: WrittenOutcome; readonly plan: Plan | null } {
  const opened = openPlan(source);
  if (opened.ok) {
    const plan = opened.value;
    const warnings = warningGroups(warningsOf(plan));
    return { plan, outcome: { kind: 'fits', table: timetableOf(plan), hour: hourPicture(plan), warnings } };
  }
  const isNothing = source.text === '' && source.lanesText === null;
  // A title or a heading is a beginning, and no mistake.
  if (isNothing || (opened.faults.in === 'session' && isOnlyBegun(opened.faults.faults)))
    return { plan: null, outcome: { kind: 'nothing' } };
  const { faults } = opened;
  const text = faults.in === 'session' ? source.text : (source.lanesText ?? '');
  return { plan: null, outcome: { kind: 'faults', ...faults, mends: offeredMends(text, faults.faults) } };
}
