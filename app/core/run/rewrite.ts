/*
 * `rewrite`: what the session has from the first part not begun takes the place of what was to come.
 */

import type { Millis } from '../units.ts';
import { openPlan } from '../plan/open-plan.ts';
import type { Session } from '../session/session.ts';
import { done, no, type Outcome } from './answer.ts';
import { done as doneAt, waitAt } from './settle.ts';
import type { RunState } from './state.ts';

export function rewrite(state: RunState, text: string, t: Millis): Outcome {
  const opened = openPlan({ text, lanesText: state.plan.source.lanesText });
  if (!opened.ok) {
    const first = opened.faults.faults[0]!;
    return no(`The new text has a fault in line ${first.line}: ${first.message}`);
  }
  const plan = opened.value;
  const begun = state.begunPart;
  const settled = linesOf(state.plan.source.text).slice(
    0,
    firstLineToCome(state.plan.session, begun, state.plan.source.text) - 1,
  );
  const changed = firstDifference(settled, linesOf(text));
  if (changed !== null) return no(`Line ${changed} has begun or stands before what has: it cannot be changed now.`);
  if (!sameSetting(state.plan.session, plan.session)) return no('Lanes and settings cannot be changed during a run.');
  if (begun >= 0 && !beginsWithHeading(plan.session, begun, settled.length)) {
    return no('What comes after the part that has begun must begin with a heading.');
  }

  const kept = state.stretches.filter((stretch) => stretch.partIndex <= begun);
  const stretches = [...kept, ...plan.stretches.filter((stretch) => stretch.partIndex > begun)];
  const cuts = new Map([...state.cuts].filter(([line]) => line <= settled.length));
  const after = { ...state, plan, stretches, cuts };
  if (state.phase === 'going' || state.index < kept.length) return done(after);
  return done(kept.length < stretches.length ? waitAt(after, kept.length) : doneAt(after, t));
}

/** The line from which the text can be rewritten: that of the part after the last begun, or the one after the end. */
export function firstLineToCome(session: Session, begunPart: number, text: string): number {
  const part = session.parts[begunPart + 1];
  return part ? (part.line ?? part.items[0]!.line) : linesOf(text).length + 1;
}

/** The lines of a text, without a byte-order mark and whatever ends them. */
function linesOf(text: string): readonly string[] {
  const lines = text.replace(/^\uFEFF/, '').split(/\r?\n/);
  if (lines[lines.length - 1] === '') lines.pop();
  return lines;
}

/** The first line (from 1) in which the text differs from the lines it must begin with; null where it does not. */
function firstDifference(settled: readonly string[], lines: readonly string[]): number | null {
  const at = settled.findIndex((line, index) => lines[index] !== line);
  return at < 0 ? null : at + 1;
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
