/*
 * The text that is being edited while the run goes on, held against the one in force: lines that have begun
 * meanwhile, and a text that somebody else has changed. Nothing that was typed is ever dropped by itself.
 */

import {
  changedText,
  changesOf,
  overlap,
  withChanges,
  type Change,
} from '../../../app/core/session/text/line-changes.ts';
import { textLines } from '../../../app/core/session/text/lines.ts';

export interface Edited {
  /** The text in force when it was begun. */
  readonly base: string;
  /** As it was typed so far. */
  readonly text: string;
}

/** The first of the locked lines (from 1) that is not as it is in force; null where all are. */
export function brokenLock(inForce: string, text: string, locked: number): number | null {
  const [stay, now] = [linesOf(inForce), linesOf(text)];
  for (let index = 0; index < locked; index++) if (stay[index] !== now[index]) return index + 1;
  return null;
}

/**
 * The text with its locked lines as they are in force, and what was typed below them as it is. Of a change that
 * reaches into the locked lines, one line stands for each of those and goes; what it puts in beyond that comes below.
 */
export function withLockedLines(inForce: string, text: string, locked: number): string {
  const before = linesOf(inForce);
  const kept = changesOf(before, linesOf(text)).map((change) => belowLock(change, locked));
  return textOf(withChanges(before, kept), inForce);
}

function belowLock(change: Change, locked: number): Change {
  const { from, to, by } = change;
  if (from >= locked) return change;
  return { from: locked, to: Math.max(to, locked), by: by.slice(Math.min(to, locked) - from) };
}

export interface Merged {
  readonly text: string;
  /** "line 7 is changed" for what is taken over from the text in force, by its lines there. */
  readonly theirs: string;
  /** Whether some of that is about the same lines as what was typed here, which then stands. */
  readonly clash: boolean;
}

/** What was typed here, put into the text that is in force now. */
export function mergeEdit({ base, text }: Edited, inForce: string): Merged {
  const before = linesOf(base);
  const mine = changesOf(before, linesOf(text));
  const theirs = changesOf(before, linesOf(inForce));
  const apart = theirs.filter((change) => mine.every((own) => !overlap(own, change)));
  return {
    text: textOf(withChanges(before, [...mine, ...apart]), text),
    theirs: changedText(textLines(base), textLines(inForce)),
    clash: apart.length < theirs.length,
  };
}

/** Whether a text was changed by no more than what stays locked allows; else the lines that it would have changed stay. */
export function isTyped(inForce: string, before: string, after: string, locked: number): boolean {
  const wasBroken = brokenLock(inForce, before, locked);
  return wasBroken !== null || brokenLock(inForce, after, locked) === null;
}

/** With the last line's end, so that a text comes back as it was. */
function linesOf(text: string): readonly string[] {
  return text.split(/\r?\n/);
}

/** Lines end as they do in another text. */
function textOf(lines: readonly string[], like: string): string {
  return lines.join(like.includes('\r\n') ? '\r\n' : '\n');
}
