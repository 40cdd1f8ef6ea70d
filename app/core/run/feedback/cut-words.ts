/*
 * In words: what a cut takes away, and which cuts and changed intervals a rewrite makes the run forget.
 */

import { cuttableAt } from '../cuts/cut.ts';
import { forgottenBetween, type Forgotten } from '../rewrite.ts';
import type { RunState } from '../state.ts';
import { setOnLine } from '../../session/item-on-line.ts';
import { writtenLine } from '../../session/text/lines.ts';
import { listed } from '../../words/phrase.ts';
import { roundsText } from '../../words/round.ts';
import { itemWords } from '../../words/set.ts';

/** "1 of 3 rounds", "2 of 10 x 75 free": of as many as there were before this cut. */
export function cutText(before: RunState, line: number, n: number): string {
  const { session } = before.plan;
  const cuttable = cuttableAt(session, line);
  const gone = before.cuts.get(line) ?? 0;
  if (cuttable.kind === 'rounds') return `${n} of ${roundsText(cuttable.most + 1 - gone)}`;
  const set = session.parts.map((part) => setOnLine(part, line)).find((each) => each !== null)!;
  return `${n} of ${itemWords(set, before.cuts)}`;
}

/**
 * ' Forgotten: the cuts of "4 x 50 @ 1:00" and "3 rounds".': what went with the lines replaced, as they were
 * written; '' for nothing.
 */
export function forgottenText(before: RunState, after: RunState): string {
  const all = forgottenNames(before.plan.source.text, forgottenBetween(before, after));
  return all.length > 0 ? ` Forgotten: ${all.join('; ')}.` : '';
}

/** 'the cut of "3 rounds"', 'the changed intervals of "4 x 50 @ 1:00" and "200 easy @ 4:00"'. */
export function forgottenNames(text: string, { cuts, intervals }: Forgotten): readonly string[] {
  const of = (lines: readonly number[], one: string): readonly string[] => {
    if (lines.length === 0) return [];
    const written = lines.map((line) => `"${writtenLine(text, line)}"`);
    return [`the ${one}${lines.length > 1 ? 's' : ''} of ${listed(written)}`];
  };
  return [...of(cuts, 'cut'), ...of(intervals, 'changed interval')];
}
