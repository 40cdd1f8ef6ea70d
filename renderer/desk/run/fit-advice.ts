/*
 * Sentences about the booked hour and its cuts, the same before and during a run.
 */

import { swimDownPart, type CutOption, type Fit } from '../../../app/core/run/hour/fit.ts';
import { isEstimated } from '../../../app/core/plan/estimates.ts';
import type { RunView } from '../../../app/core/run/view.ts';
import type { Millis } from '../../../app/core/units.ts';
import { about } from '../../../app/core/words/time/estimate.ts';
import { movedText } from '../../../app/core/words/time/hour.ts';
import { reading } from '../../../app/core/words/time/reading.ts';
import { roundsText } from '../../../app/core/words/round.ts';
import { clockTime } from '../../../app/core/words/time/time-of-day.ts';
import { itemsUnder, type Item, type Session } from '../../../app/core/session/session.ts';
import { writtenLine } from '../../../app/core/session/text/lines.ts';

/** A cut as it is said. `time`: of a line that is swum by time, `n` of it in ms. */
export type CutShown = Pick<CutOption, 'line' | 'n' | 'of' | 'saves' | 'takesBegun'> & {
  readonly kind: CutOption['kind'] | 'time';
};

/** The line above the cuts; '' if there is time enough and no cut to offer. `isWritten`: before a run, which alone has Move on. */
export function adviceOf({
  over,
  cuts,
  serves,
  isWritten,
}: Pick<Fit, 'over' | 'serves'> & { readonly cuts: readonly unknown[]; readonly isWritten: boolean }): string {
  if (over <= 0) return cuts.length > 0 ? 'If you run late, any of these cuts helps:' : '';
  if (cuts.length === 0)
    return `No cut brings the end forward: shorten the last part${isWritten ? '' : ', or move on'}.`;
  if (serves === 'each') return cuts.length === 1 ? 'This cut is enough:' : 'Any one of these cuts is enough:';
  const all = cuts.length === 2 ? 'both' : `all ${cuts.length}`;
  if (serves === 'all') return `It takes ${all} of these cuts:`;
  return cuts.length === 1
    ? 'This is all that can be cut, and it is not enough:'
    : `Even ${all} of these cuts are not enough:`;
}

/** "Cut 1 of 3 rounds", "Cut 2 of 12 x 75 free", "Cut 1:30 of 6:00 choice": a line as the coach wrote it, up to its intervals. */
export function cutLabel(text: string, { line, n, of, kind }: Pick<CutShown, 'line' | 'n' | 'of' | 'kind'>): string {
  return `Cut ${kind === 'time' ? reading(n) : n} of ${kind === 'rounds' ? roundsText(of) : writtenLine(text, line).replace(/\s*@.*/, '')}`;
}

/** " in every round", of a line that stands inside rounds: so much is cut in each of them; else ''. */
export function everyRound({ parts }: Pick<Session, 'parts'>, line: number): string {
  return parts.some(({ items }) => isInRounds(items, line, false)) ? ' in every round' : '';
}

/** `isInside`: whether the items stand in rounds. */
function isInRounds(items: readonly Item[], line: number, isInside: boolean): boolean {
  return items.some((item) => {
    if (item.line === line) return isInside;
    return isInRounds(itemsUnder(item), line, isInside || item.kind === 'rounds');
  });
}

/**
 * "ends 5:35 sooner, 20:21". `isEstimate`: whether what it saves is one. `ends`: the time of day it would end.
 * `onTop`: whether it is counted on top of the cuts before it.
 */
export function cutHint(
  { saves }: Pick<CutOption, 'saves'>,
  isEstimate: boolean,
  ends: string,
  onTop: boolean,
): string {
  return `${onTop ? 'then another' : 'ends'} ${movedText(-saves, isEstimate)}, ${ends}`;
}

/** "the round under way too, ": what a cut takes that lanes have begun; '' for nothing. */
export function begunText({ kind, takesBegun }: Pick<CutShown, 'kind' | 'takesBegun'>): string {
  if (!takesBegun) return '';
  return kind === 'rounds' ? 'the round under way too, ' : 'a rep under way too, ';
}

/** "Swim-down must start by 20:24". `ofDay`: its latest start as a time of day. */
export function startByText({ plan, stretches }: Pick<RunView, 'plan' | 'stretches'>, ofDay: Millis): string {
  const last = swimDownPart({ plan, stretches });
  const name = plan.session.parts[last]?.name ?? 'The last part';
  const isEstimate = stretches.some((stretch) => stretch.partIndex >= last && isEstimated(stretch));
  return `${name} must start by ${about(isEstimate)}${clockTime(ofDay)}.`;
}
