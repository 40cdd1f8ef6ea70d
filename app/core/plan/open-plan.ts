/*
 * From the texts to a plan in one step: what the commands, the host and every screen do first.
 */

import type { Fault, Result } from '../result.ts';
import { parseLanes, parseSession } from '../session/parse.ts';
import { firstChangedLine, textLines } from '../session/lines.ts';
import type { Item, Session } from '../session/session.ts';
import { makePlan } from './make-plan.ts';
import type { Plan, Source, Stretch } from './plan.ts';

/** Faults, and the text that they are in. */
export interface PlanFaults {
  readonly in: 'session' | 'lanes';
  readonly faults: readonly Fault[];
}

/** As many as there may be leaves: talks in rounds in rounds are few in a text and endless when written out. */
const MOST_PAUSES = 100_000;

/**
 * The plan, or the faults of the lanes file, or else those of the session (which is read with its lanes).
 * `before` is a plan of an earlier text: parts in which no line has changed are planned already.
 */
export function openPlan(source: Source, before: Plan | null = null): Result<Plan, PlanFaults> {
  const lanes = source.lanesText === null ? null : parseLanes(source.lanesText);
  if (lanes && !lanes.ok) return { ok: false, faults: { in: 'lanes', faults: lanes.faults } };
  const session = parseSession(source.text, lanes ? lanes.value : null);
  if (!session.ok) return { ok: false, faults: { in: 'session', faults: session.faults } };
  const endless = endlessPauses(session.value);
  if (endless) return { ok: false, faults: { in: 'session', faults: [endless] } };
  return { ok: true, value: makePlan(session.value, source, before ? unchanged(before, session.value, source) : []) };
}

/** The stretches of those first parts that end before the first line that has changed: nothing later moves them. */
function unchanged(before: Plan, session: Session, source: Source): readonly Stretch[] {
  if (before.source.lanesText !== source.lanesText) return [];
  const line = firstChangedLine(textLines(before.source.text), textLines(source.text));
  if (line === null) return before.stretches;
  // A part ends with the heading of the next; only where that stands as it stood is the part whole.
  const ended = (partIndex: number): boolean => (session.parts[partIndex + 1]?.line ?? line) < line;
  return before.stretches.filter(({ partIndex }) => ended(partIndex));
}

/** The fault of the line with which talks and breaks, counted but not written out, become too many. */
function endlessPauses(session: Session): Fault | null {
  let pauses = 0;
  for (const part of session.parts) {
    for (const item of part.items) {
      pauses += pausesIn(item);
      if (pauses <= MOST_PAUSES) continue;
      const message = `more than ${MOST_PAUSES} talks and breaks with this line: a session has fewer`;
      return { line: item.line, column: item.column, message };
    }
  }
  return null;
}

function pausesIn(item: Item): number {
  if (item.kind === 'rounds') return item.times * item.items.reduce((sum, inner) => sum + pausesIn(inner), 0);
  // Under a line of some lanes there is none.
  return item.kind === 'talk' || item.kind === 'break' ? 1 : 0;
}
