/*
 * How the booked hour stands while a session is written: when the swim-down must start, and the cuts that would end it by
 * its finish, with what each saves: alone if one is enough, else together with those before it.
 */

import { endsByEstimate, lineIsEstimate } from '../../../app/core/plan/estimates.ts';
import { openPlan } from '../../../app/core/plan/open-plan.ts';
import type { Plan } from '../../../app/core/plan/plan.ts';
import { totalsOf } from '../../../app/core/plan/totals.ts';
import { cutsInRounds, fitPlan, smallCuts, type CutOption, type Fit } from '../../../app/core/run/hour/fit.ts';
import { textWithCut, textWithTime } from '../../../app/core/session/text/text-cut.ts';
import { MINUTE, type MinuteOfDay } from '../../../app/core/units.ts';
import { wrongHourText } from '../../../app/core/words/time/booking.ts';
import { placeIn } from '../hour/hour-bars.ts';
import { everyRound, startByText } from '../run/fit-advice.ts';
import { shorterTimes, type ShorterTime } from './shorter-times.ts';

export type WrittenCut = (CutOption | ShorterTime) & {
  /** Whether what it saves is an estimate. */
  readonly isEstimate: boolean;
  /** " in every round" for a line inside rounds, else ''. */
  readonly where: string;
};

export interface WrittenFit {
  /** The text that its lines are of. */
  readonly text: string;
  readonly pool: Plan['session']['pool'];
  readonly startsAt: MinuteOfDay;
  /** Whether the ends are estimates. */
  readonly isEstimate: boolean;
  readonly fit: Pick<Fit, 'over' | 'serves'>;
  /** Where each is enough, the smallest first. */
  readonly cuts: readonly WrittenCut[];
  /** Smaller ones, which are enough together, where one alone takes more than is needed; else none. */
  readonly smaller: readonly WrittenCut[];
  /** "Swim-down must start by 20:24.", and where that stands in the picture of the hour; null where there is none to start, or no start of the session is early enough. */
  readonly startBy: { readonly said: string; readonly at: number } | null;
}

/** A session that takes more of them is not one hour's. */
const MOST_CUTS = 40;

/** null without a start and a finish, and where an hour of those is wrong. Savings are measured on the shortened texts, so that a tap saves what it says. */
export function writtenFit(plan: Plan): WrittenFit | null {
  const fit = fitPlan(plan);
  if (!fit || wrongHourText(plan.session) !== null) return null;
  const { pool, startsAt } = plan.session;
  const { over, serves } = fit;
  const shorter = over > 0 ? shorterTimes(plan, totalsOf(plan).duration - over).map((cut) => noted(plan, cut)) : [];
  const given = measured(plan, fit.cuts.slice(0, MOST_CUTS), serves !== 'each');
  const alone = serves === 'each' ? [...given, ...measured(plan, cutsInRounds(plan), false)] : [];
  const each = [...alone, ...shorter].sort((a, b) => a.saves - b.saves);
  const isEach = serves === 'each' || each.length > 0;
  return {
    text: plan.source.text,
    pool,
    startsAt: startsAt!,
    isEstimate: endsByEstimate(plan),
    fit: { over, serves: isEach ? 'each' : serves },
    cuts: isEach ? each.slice(0, MOST_CUTS) : given,
    smaller: serves === 'each' ? measured(plan, smallCuts(plan), true) : serves === 'all' && isEach ? given : [],
    startBy: startBy(plan, fit),
  };
}

/** `isOnTop`: each is counted on top of those before it. */
function measured(plan: Plan, options: readonly CutOption[], isOnTop: boolean): readonly WrittenCut[] {
  let before = { plan, end: totalsOf(plan).duration };
  return options.flatMap((option) => {
    const after = withCut(before.plan, option);
    // What cannot be written is left out of what is offered.
    if (!after) return [];
    const cut = noted(plan, { ...option, saves: before.end - after.end, endsAt: after.end });
    if (isOnTop) before = after;
    return [cut];
  });
}

function noted<Cut extends CutOption | ShorterTime>(
  plan: Plan,
  cut: Cut,
): Cut & Pick<WrittenCut, 'isEstimate' | 'where'> {
  const isEstimate = lineIsEstimate(plan.stretches, cut.line);
  return { ...cut, isEstimate, where: everyRound(plan.session, cut.line) };
}

function startBy(plan: Plan, { swimDownBy }: Fit): WrittenFit['startBy'] {
  if (swimDownBy === null || swimDownBy < 0) return null;
  const said = startByText({ plan, stretches: plan.stretches }, plan.session.startsAt! * MINUTE + swimDownBy);
  return { said, at: placeIn(plan, swimDownBy) };
}

/** null where what is left is no session. */
function withCut(before: Plan, { line, n }: CutOption): { readonly plan: Plan; readonly end: number } | null {
  const { source, session } = before;
  const text = textWithCut(source.text, session.pool, line, n);
  const opened = openPlan({ text, lanesText: source.lanesText }, before);
  return opened.ok ? { plan: opened.value, end: totalsOf(opened.value).duration } : null;
}

/** The text with it. */
export function textCut({ text, pool }: Pick<WrittenFit, 'text' | 'pool'>, { kind, line, n, of }: WrittenCut): string {
  return kind === 'time' ? textWithTime(text, pool, line, of - n) : textWithCut(text, pool, line, n);
}
