/*
 * The words of a lane's row: its next leave or why it has none, what it swims, and what else the coach wants to know.
 */

import { LEAD } from '../../../app/core/run/align.ts';
import type { ClockChoice } from '../../../app/core/run/readings.ts';
import type { LaneView, LastView, RunView } from '../../../app/core/run/view.ts';
import type { Millis } from '../../../app/core/units.ts';
import { inByText } from '../../../app/core/words/time/clock.ts';
import { holdText, onText } from '../../../app/core/words/interval.ts';
import { commaed, count, spaced } from '../../../app/core/words/phrase.ts';
import { inText } from '../../../app/core/words/time/reading.ts';
import { repText } from '../../../app/core/words/rep.ts';
import { roundText } from '../../../app/core/words/round.ts';
import { leaveText, whichRep } from '../../ui/coach/feedback/words.ts';
import { leavingNow } from '../../ui/leaving.ts';

/** With more lanes than this the rows are closer together, so that ten are in sight at 1280 × 800 and 1024 × 700. */
export const MANY = 7;

/** What the row's colours show: the lane's state, and whether it leaves within the next seconds. */
export function standing(view: RunView, lane: LaneView): string {
  const at = lane.next?.at ?? null;
  if (lane.state === 'pending')
    return at !== null && at - view.t <= LEAD ? 'ready' : at === null ? 'waiting' : 'pending';
  return lane.state;
}

/** The large text of a lane: the reading of its next leave, or a word such as "stopped". */
export function leaveOf(view: RunView, number: number, clock: ClockChoice): string {
  const lane = view.lanes.find((each) => each.number === number);
  if (!lane) return '';
  switch (lane.state) {
    case 'out':
    case 'stopped':
      return lane.state;
    case 'finished':
      return inByText(clock, view, lane);
    case 'sits-out':
      return 'sits out';
    case 'absent':
      return view.pauseEnd === null ? '–' : view.stretch.kind;
    case 'pending':
      return lane.next && lane.next.at !== null ? leaveText(clock, view, lane.next.at) : 'waits';
  }
}

/** Which rep of the set it is, and how soon it goes. */
export function leftOf(view: RunView, number: number): string {
  const lane = view.lanes.find((each) => each.number === number);
  if (!lane || !lane.next || (lane.state !== 'pending' && lane.state !== 'stopped')) return '';
  const rep = whichRep(lane.next);
  if (lane.state === 'stopped') return spaced(rep, 'next');
  return commaed(rep, lane.next.at === null ? '' : inText(lane.next.at - view.t));
}

/** What the lane swims next, in groups: the distance, then its words. A row shows each group whole or not at all. */
export function repGroups(view: RunView, lane: LaneView): readonly string[] {
  const text = repWords(view, lane);
  // Only a rep can be split; everything else is one sentence.
  if (leftOf(view, lane.number) === '') return [text];
  const from = text.indexOf(' ') + 1;
  return [
    text.slice(0, from),
    ...text
      .slice(from)
      .split(', ')
      .map((words) => `${words}, `),
  ].filter((words) => words !== '');
}

/** A sentence in groups, with each comma at the start of the next group. */
export function moreGroups(text: string): readonly string[] {
  return text.split(', ').map((words, at) => (at === 0 ? words : `, ${words}`));
}

/** What the lane swims next. Which rep it is, and how soon, is an element of its own (`leftOf`): long words cannot push it out. */
function repWords(view: RunView, lane: LaneView): string {
  const { unit } = view.plan.session.pool;
  if (lane.state === 'out') return 'not in the session now';
  if (view.pauseEnd !== null) return view.stretch.kind === 'talk' ? 'listens' : 'rests';
  if (lane.state === 'absent') return 'nothing in this set';
  if (!lane.next)
    return lane.state === 'finished' && lane.last
      ? `${repText(lane.last.rep, unit)}, the last of it`
      : 'nothing to come';
  return repText(lane.next.rep, unit);
}

/**
 * Swimmers, interval, target and the leave after; while the lane leaves, how many are away.
 * `abandonedAt`: when a stretch was last given up (`lastAbandoned`).
 */
export function moreWords(view: RunView, lane: LaneView, clock: ClockChoice, abandonedAt: Millis): string {
  if (lane.state === 'out') return '';
  const { next } = lane;
  // A stopped lane does not leave at its pending times.
  const after = lane.state === 'stopped' ? null : lane.after;
  const leaving = leavingNow(view, lane, abandonedAt);
  const then = thenText(view, after, clock);
  if (leaving) return commaed(leavingText(view, lane, leaving), then);
  const timing = next ? [onText(next.rep), holdText(next.rep.target)] : [];
  return commaed(count(lane.swimmers, 'swimmer'), ownRound(view, lane), ...timing, then);
}

function thenText(view: RunView, after: LaneView['after'], clock: ClockChoice): string {
  return after && after.at !== null ? `then ${leaveText(clock, view, after.at)}` : '';
}

/** The lane's round, if lanes are in different ones; else the head shows it. */
function ownRound(view: RunView, { next }: LaneView): string {
  const own = next ? roundText(next.rounds) : '';
  const same = view.lanes.every((lane) => !lane.next || roundText(lane.next.rounds) === own);
  return same ? '' : own;
}

/** Names the set too if it is not the one in this row, as after Move on. */
function leavingText({ plan }: RunView, { leftHere, next }: LaneView, { rep, away, swimmers }: LastView): string {
  const isOfRow = leftHere && (!next || next.rep.set === rep.set);
  const what = isOfRow ? 'leaving now' : `the tail of ${repText(rep, plan.session.pool.unit)}`;
  return `${what}: ${away} of ${swimmers} away`;
}
