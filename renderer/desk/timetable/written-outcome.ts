/*
 * What a text comes to, as it stands beside it: its faults, or the timetable, the hour and the warnings. All of it is
 * plain data, which a worker can send.
 */

import { openPlan, type PlanFaults } from '../../../app/core/plan/open-plan.ts';
import type { Plan, Source } from '../../../app/core/plan/plan.ts';
import { warningsOf } from '../../../app/core/plan/warnings/warnings.ts';
import type { Fault } from '../../../app/core/result.ts';
import { isOnlyBegun, titleOf } from '../../../app/core/session/parse.ts';
import { listed } from '../../../app/core/words/phrase.ts';
import { offeredMends, type OfferedMend } from '../editor/faults/fault-mends.ts';
import { hourPicture, type HourPicture } from '../hour/hour-bars.ts';
import { neededKit } from './needed-kit.ts';
import { withoutFaults, type Readable } from './readable-lines.ts';
import { timetableOf, type Timetable } from './timetable-rows.ts';
import { warningGroups, type WarningGroup } from './warning-groups.ts';

/** More lines are counted. */
const MOST_NAMED = 6;

export type WrittenOutcome =
  | { readonly kind: 'nothing' }
  | {
      readonly kind: 'faults';
      readonly in: 'session' | 'lanes';
      readonly faults: readonly Fault[];
      readonly mends: readonly OfferedMend[];
      /** What stands beside it meanwhile; null where there is nothing. */
      readonly meanwhile: Meanwhile | null;
    }
  | ({ readonly kind: 'fits' } & Written);

/** A session as it stands beside its text. */
export interface Written {
  readonly table: Timetable;
  readonly hour: HourPicture;
  readonly warnings: readonly WarningGroup[];
  /** In the order it is needed; null for none. */
  readonly kit: string | null;
}

export interface Meanwhile extends Written {
  /** "Without line 12, which cannot be read, and line 11, which needs it." */
  readonly said: string;
}

/** The plan that could be read last. */
export type Before = Plan | null;

/** The outcome, and the plan where there is one. `before`: of an earlier text, which may be that of another session. */
export function writtenOutcome(
  source: Source,
  before: Before = null,
): { readonly outcome: WrittenOutcome; readonly plan: Plan | null } {
  const opened = openPlan(source);
  if (opened.ok) return { plan: opened.value, outcome: { kind: 'fits', ...writtenOf(opened.value) } };
  const isNothing = source.text === '' && source.lanesText === null;
  // A title or a heading is a beginning, and no mistake.
  if (isNothing || (opened.faults.in === 'session' && isOnlyBegun(opened.faults.faults)))
    return { plan: null, outcome: { kind: 'nothing' } };
  const { faults } = opened;
  const text = faults.in === 'session' ? source.text : (source.lanesText ?? '');
  const mends = offeredMends(text, faults.faults);
  return { plan: null, outcome: { kind: 'faults', ...faults, mends, meanwhile: meanwhileOf(source, faults, before) } };
}

function writtenOf(plan: Plan): Written {
  return {
    table: timetableOf(plan),
    hour: hourPicture(plan),
    warnings: warningGroups(warningsOf(plan)),
    kit: neededKit(plan.session),
  };
}

/** The session without the lines that cannot be read; where more than these would have to go, as it was before. */
function meanwhileOf(source: Source, faults: PlanFaults, before: Before): Meanwhile | null {
  const readable = withoutFaults(source, faults, 1);
  if (!readable && before && isOf(source, before.source)) {
    return { ...writtenOf(before), said: 'As it was when every line could be read.' };
  }
  const left = readable ?? withoutFaults(source, faults);
  return left && { ...writtenOf(left.plan), said: withoutText(left) };
}

/** Whether it is the same session with lines that are written differently, so that its lines have their numbers. */
function isOf({ text }: Source, before: Source): boolean {
  return titleOf(text) === titleOf(before.text) && text.split('\n').length === before.text.split('\n').length;
}

function withoutText({ without, needing }: Readable): string {
  const faulty = without.length > MOST_NAMED ? `the ${without.length} lines that` : `${linesNamed(without)}, which`;
  if (needing.length === 0) return `Without ${faulty} cannot be read.`;
  const [need, them] = [needing.length === 1 ? 'needs' : 'need', without.length === 1 ? 'it' : 'them'];
  const others = needing.length > MOST_NAMED ? `${needing.length} lines that` : `${linesNamed(needing)}, which`;
  return `Without ${faulty} cannot be read, and ${others} ${need} ${them}.`;
}

function linesNamed(lines: readonly number[]): string {
  return lines.length === 1 ? `line ${lines[0]}` : `lines ${listed(lines.map(String))}`;
}
