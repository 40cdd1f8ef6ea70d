/*
 * Makes a plan from the texts in one step. The command line, the host and every screen begin with this.
 */

import type { Fault, Result } from '../result.ts';
import { parseLanes, parseSession } from '../session/parse.ts';
import { firstChangedLine, textLines } from '../session/text/lines.ts';
import type { Item, Session } from '../session/session.ts';
import { makePlan } from './make-plan.ts';
import type { Plan, Source, Stretch } from './plan.ts';

/** Faults, and the text that they are in. */
export interface PlanFaults {
  readonly in: 'session' | 'lanes';
  readonly faults: readonly Fault[];
}

/** The same limit as for leaves. A few talks in nested rounds can become very many when written out. */
const MOST_PAUSES = 100_000;

/**
 * The plan; or the faults of the lanes file; or, if that has none, the faults of the session. before: the plan of an
 * earlier text, from which unchanged first parts are taken over.
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

/** The stretches of the first parts that end before the first changed line: no later line can change them. */
function unchanged(before: Plan, session: Session, source: Source): readonly Stretch[] {
  if (before.source.lanesText !== source.lanesText) return [];
  const line = firstChangedLine(textLines(before.source.text), textLines(source.text));
  if (line === null) return before.stretches;
  // A part ends at the next heading, so it is unchanged only if that heading is too.
  const ended = (partIndex: number): boolean => (session.parts[partIndex + 1]?.line ?? line) < line;
  return before.stretches.filter(({ partIndex }) => ended(partIndex));
}

/** The fault of the line with which there are too many talks and breaks. They are counted, not written out. */
function endlessPauses(session: Session): Fault | null {
  let pauses = 0;
  for (const part of session.parts) {
    for (const item of part.items) {
      pauses += pausesIn(item);
      if (pauses <= MOST_PAUSES) continue;
      const message = `with this line there are more than ${MOST_PAUSES} talks and breaks: write fewer rounds`;
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
