/*
 * The next leave of a lane, or the first of all lanes, as the remote shows it.
 */

import type { ClockChoice } from '../../app/core/run/readings.ts';
import type { LaneView, NextRep, RunView } from '../../app/core/run/view.ts';
import { inByText } from '../../app/core/words/time/clock.ts';
import { lanesNamed } from '../../app/core/words/lanes.ts';
import { commaed } from '../../app/core/words/phrase.ts';
import { inText, readingLeft } from '../../app/core/words/time/reading.ts';
import { repText } from '../../app/core/words/rep.ts';
import { leaveText, stretchText, whichRep } from '../ui/coach/feedback/words.ts';

export interface NextLeave {
  /** The reading, or a word such as "stopped". */
  readonly leave: string;
  /** "in 22 s"; '' if nobody is to leave. */
  readonly left: string;
  /** Which lanes, and what they swim: "lanes 1 and 2: 50 fast, 3 of 4". */
  readonly what: string;
}

/** `lane` is its number; null for whichever lanes leave first. */
export function nextLeaveOf(view: RunView, lane: number | null, clock: ClockChoice): NextLeave {
  const { unit } = view.plan.session.pool;
  if (view.phase === 'done') return { leave: 'done', left: '', what: '' };
  if (view.phase === 'waiting') return { leave: 'waits', left: 'for Start', what: `Next: ${stretchText(view)}` };
  if (view.pauseEnd !== null) {
    return { leave: readingLeft(view.pauseEnd - view.t), left: 'left', what: stretchText(view) };
  }
  const lanes = view.lanes.filter(({ number }) => lane === null || number === lane);
  const going = lanes.filter(({ state, next }) => state === 'pending' && next !== null && next.at !== null);
  const earliest = Math.min(...going.map(({ next }) => next?.at ?? Infinity));
  const first = going.filter(({ next }) => next?.at === earliest);
  const next = first[0]?.next;
  const setOf = (rep: NextRep): string => commaed(repText(rep.rep, unit), whichRep(rep));
  const named = (those: readonly LaneView[]): string =>
    lane === null && view.lanes.length > 1 ? `${lanesNamed(those.map(({ number }) => number))}: ` : '';
  if (!next) {
    const stopped = lanes.flatMap((each) =>
      each.state === 'stopped' && each.next ? [[each, setOf(each.next)] as const] : [],
    );
    const set = stopped[0]?.[1] ?? '';
    const those = stopped.filter(([, text]) => text === set).map(([each]) => each);
    const who = those.length === lanes.length ? '' : named(those);
    return { leave: standstill(view, lanes, clock), left: '', what: set === '' ? '' : `${who}${set}` };
  }
  return {
    leave: leaveText(clock, view, earliest),
    left: inText(earliest - view.t),
    what: `${named(first)}${setOf(next)}`,
  };
}

/** Why nobody is to leave, or when the last swimmers will be in. */
function standstill(view: RunView, lanes: readonly LaneView[], clock: ClockChoice): string {
  if (lanes.some(({ state }) => state === 'stopped')) return 'stopped';
  if (lanes.every(({ state }) => state === 'out')) return 'out';
  const swimming = lanes.filter(({ state }) => state === 'finished').sort((a, b) => b.end - a.end);
  if (swimming[0]) return inByText(clock, view, swimming[0]);
  return lanes.some(({ state }) => state === 'sits-out') ? 'sits out' : 'no swim';
}
