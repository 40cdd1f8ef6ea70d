/*
 * What of a text can be read where some lines cannot: the session without them, line for line.
 */

import { openPlan, type PlanFaults } from '../../../app/core/plan/open-plan.ts';
import type { Plan, Source } from '../../../app/core/plan/plan.ts';

export interface Readable {
  readonly plan: Plan;
  /** The lines (from 1) that cannot be read, in order. */
  readonly without: readonly number[];
  /** Those that cannot be read without these, as rounds whose only set is at fault; in order. */
  readonly needing: readonly number[];
}

/** A line that is left out may make others unreadable, as those under a line of rounds. */
const MOST_PASSES = 4;

/** null where nothing is left, where the fault is in the lanes' own text, and where `passes` have not been enough. */
export function withoutFaults(source: Source, found: PlanFaults, passes = MOST_PASSES): Readable | null {
  if (found.in === 'lanes' || passes === 0) return null;
  // Blank lines mean nothing, so that the others keep their numbers.
  const lines = source.text.split('\n');
  for (const { line } of found.faults) lines[line - 1] = leftOf(lines[line - 1] ?? '');
  const text = lines.join('\n');
  if (text === source.text) return null;
  const opened = openPlan({ ...source, text });
  const without = found.faults.map(({ line }) => line);
  if (opened.ok) return { plan: opened.value, without, needing: [] };
  const more = withoutFaults({ ...source, text }, opened.faults, passes - 1);
  if (!more) return null;
  const others = new Set([...more.without, ...more.needing].filter((line) => !without.includes(line)));
  return { plan: more.plan, without, needing: [...others].sort((a, b) => a - b) };
}

/** Of a lane's line the lane stays, because the lists of all other lines count on it. */
function leftOf(line: string): string {
  const lane = /^\s*(lane \d{1,2})[\s,]/i.exec(line)?.[1];
  return lane ?? '';
}
