/*
 * `rewrite`: what the session has from the first part not begun takes the place of what was to come.
 */

import type { Millis } from '../units.ts';
import { openPlan } from '../plan/open-plan.ts';
import { firstChangedLine, textLines } from '../session/lines.ts';
import type { Session } from '../session/session.ts';
import { done, no, type Outcome } from './answer.ts';
import { done as doneAt, waitAt } from './settle.ts';
import type { RunState } from './state.ts';

export function rewrite(state: RunState, text: string, t: Millis): Outcome {
  const { lanesText, text: before } = state.plan.source;
  const opened = openPlan({ text, lanesText }, state.plan);
  if (!opened.ok) {
    const first = opened.faults.faults[0]!;
    return no(`The new text has a fault in line ${first.line}: ${first.message}`);
  }
  const plan = opened.value;
  const begun = state.begunPart;
  const settled = firstLineToCome(state.plan.session, begun, before) - 1;
  const changed = firstChangedLine(textLines(before), textLines(text));
  if (changed !== null && changed <= settled) {
    return no(`Line ${changed} has begun or stands before what has: it cannot be changed now.`);
  }
  if (!sameSetting(state.plan.session, plan.session)) return no('Lanes and settings cannot be changed during a run.');
  if (begun >= 0 && !beginsWithHeading(plan.session, begun, settled)) {
    return no('What comes after the part that has begun must begin with a heading.');
  }

  const kept = state.stretches.filter((stretch) => stretch.partIndex <= begun);
  const stretches = [...kept, ...plan.stretches.filter((stretch) => stretch.partIndex > begun)];
  const cuts = new Map([...state.cuts].filter(([line]) => line <= settled));
  const after = { ...state, plan, stretches, cuts };
  if (state.phase === 'going' || state.index < kept.length) return done(after);
  return done(kept.length < stretches.length ? waitAt(after, kept.length) : doneAt(after, t));
}

/** The line from which the text can be rewritten: that of the part after the last begun, or the one after the end. */
export function firstLineToCome(session: Session, begunPart: number, text: string): number {
  const part = session.parts[begunPart + 1];
  return part ? (part.line ?? part.items[0]!.line) : textLines(text).length + 1;
}

function sameSetting(a: Session, b: Session): boolean {
  const setting = ({ pool, startsAt, finishBy, between, startOn, grid, gap, lanes }: Session) =>
    JSON.stringify([pool, startsAt, finishBy, between, startOn, grid, gap, lanes]);
  return setting(a) === setting(b);
}

/** Whether the new text goes on with a heading (or not at all) after the lines that stay. */
function beginsWithHeading(session: Session, begunPart: number, settledLines: number): boolean {
  const stays = session.parts[begunPart];
  const last = stays ? lastLine(stays.items) : 0;
  return last <= settledLines;
}

function lastLine(items: Session['parts'][number]['items']): number {
  return items.reduce((last, item) => Math.max(last, item.line, item.kind === 'rounds' ? lastLine(item.items) : 0), 0);
}
