/*
 * A text that is edited during a run, compared with the one in force: lines that have begun since, and changes from
 * another screen. Nothing that was typed is ever dropped by itself.
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
  /** The text in force when the coach began to edit. */
  readonly base: string;
  /** As typed so far. */
  readonly text: string;
}

/** The first locked line (from 1) that differs from the text in force; null if none does. */
export function brokenLock(inForce: string, text: string, locked: number): number | null {
  const [stay, now] = [linesOf(inForce), linesOf(text)];
  for (let index = 0; index < locked; index++) if (stay[index] !== now[index]) return index + 1;
  return null;
}

/**
 * The text in force in its locked lines, and what was typed below them. Of a change that reaches into the locked lines,
 * as many lines are dropped as it replaces there; any further ones go below them.
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
  /** What the other screen changed, in words: "line 7 is changed". */
  readonly theirs: string;
  /** Whether both changed the same lines: there what was typed here wins. */
  readonly clash: boolean;
}

/** Puts what was typed here into the text that is now in force. */
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

/** Whether a change leaves the locked lines alone. If one of them was changed before it was locked, any change goes. */
export function isTyped(inForce: string, before: string, after: string, locked: number): boolean {
  const wasBroken = brokenLock(inForce, before, locked);
  return wasBroken !== null || brokenLock(inForce, after, locked) === null;
}

/** Keeps an empty last line, so that the text can be put together again as it was. */
function linesOf(text: string): readonly string[] {
  return text.split(/\r?\n/);
}

/** With the line ends of another text. */
function textOf(lines: readonly string[], like: string): string {
  return lines.join(like.includes('\r\n') ? '\r\n' : '\n');
}
