/*
 * What the head of the wall screen says: the part, the set as written, what comes next and when the
 * session will be over; and, while nobody swims, what stands large in place of the strips.
 */

import { reading, timeOfDay } from '../../app/core/reading.ts';
import { readingAt, type ClockChoice } from '../../app/core/run/readings.ts';
import type { RunView } from '../../app/core/run/view.ts';
import type { Round, Stretch, WrittenSet } from '../../app/core/plan/plan.ts';
import type { Part } from '../../app/core/session/session.ts';
import { HOUR, MINUTE, SECOND, type Millis } from '../../app/core/units.ts';
import { finishAfter } from '../ui/booked-finish.ts';
import { swumNow, type SwumNow } from '../ui/current-set.ts';
import { about, endIsEstimate } from '../ui/estimates.ts';
import { itemIndexOf, itemWords, type Cuts } from '../ui/set-words.ts';

export interface Head {
  /** With the round while all lanes are in the same. */
  readonly title: string;
  readonly set: string;
  readonly then: string;
  readonly end: string;
}

export interface Callout {
  readonly title: string;
  readonly lines: readonly string[];
  /** Stands over the lanes' own shares of it; empty where no lane has one. */
  readonly lanes: string;
  /** Time left of a talk or break; empty for all else. */
  readonly left: string;
}

export function headFace(view: RunView, openedAt: Millis, choice: ClockChoice): Head {
  const end = view.phase === 'done' ? '' : endText(view, openedAt);
  const { part: title } = view.stretch;
  if (view.phase === 'waiting') return { title: 'Waiting for the coach', set: '', then: '', end };
  if (view.phase === 'done') return { title: view.state.plan.session.title ?? 'Session', set: '', then: '', end };
  if (view.stretch.kind !== 'swim') return { title, set: '', then: '', end };
  const swum = swumNow(view);
  if (!swum) return { title, set: '', then: '', end };
  const cuts = cutsNow(view);
  const set = itemWords(swum.item, cuts);
  const then = thenWords(swum, cuts);
  const follows = followsText(view, choice);
  // Nobody is to leave any more: what begins by itself is what all wait for.
  return { title: follows === '' ? title + roundWords(view, swum) : follows, set, then, end };
}

/** While the coach's word is waited for. */
export function nextFace(view: RunView): Callout {
  const { part, kind } = view.stretch;
  return {
    title: `Next: ${part}`,
    lines: wordsFrom(view, view.stretch, firstLine(view)),
    lanes: kind === 'swim' ? 'Each lane starts with' : '',
    left: '',
  };
}

/** A talk or break that is going. */
export function pauseFace(view: RunView): Callout {
  const { kind, words, part } = view.stretch;
  const name = kind === 'talk' ? 'Talk' : 'Break';
  const { following } = view;
  const left = Math.max(0, (view.pauseEnd ?? view.t) - view.t);
  const lines = following ? wordsFrom(view, following, firstLineOf(following)) : [];
  const then = following && following.part !== part ? `then ${following.part}: ` : 'then ';
  return {
    title: words === '' ? name : `${name}: ${words}`,
    lines: lines.map((line, index) => (index === 0 ? then + line : line)),
    lanes: following?.kind === 'swim' ? 'Then each lane starts with' : '',
    left: reading(Math.ceil(left / SECOND) * SECOND),
  };
}

export function doneFace(view: RunView, openedAt: Millis): Callout {
  return {
    title: 'Session done',
    lines: [`at ${timeOfDay(Math.floor((openedAt + view.projectedEnd) / MINUTE) % (24 * 60))}`],
    lanes: '',
    left: '',
  };
}

/** ", round 2 of 3" while every lane is in that round of the outermost rounds, else nothing. */
function roundWords({ lanes }: RunView, { rounds: [outermost] }: SwumNow): string {
  if (!outermost || outermost.of <= 1) return '';
  const { line, round, of } = outermost;
  // How many there now are, after cuts, the lanes know.
  const counted = lanes
    .reduce<Round[]>((all, lane) => all.concat(lane.next?.rounds ?? [], lane.last?.rounds ?? []), [])
    .find((each) => each.line === line && each.round === round);
  return `, round ${round} of ${counted ? counted.of : of}`;
}

function thenWords({ part, after }: SwumNow, cuts: Cuts): string {
  if (!after) return '';
  return `then ${after.part === part ? itemWords(after.item, cuts) : after.part.name}`;
}

/** "Break at 5:40" where nobody is to leave any more and it begins by itself, as a reading of the screen's clock. */
function followsText({ followsAt, following, lanes, clock, state }: RunView, choice: ClockChoice): string {
  if (followsAt === null || !following) return '';
  if (lanes.some((lane) => lane.state === 'pending' || lane.state === 'stopped')) return '';
  const at = readingAt(choice, clock, state, followsAt);
  if (at === null) return '';
  const what = following.kind === 'swim' ? 'Next set' : following.kind === 'talk' ? 'Talk' : 'Break';
  return `${what} at ${reading(at)}`;
}

/** What has been cut, as far as it had not left before: that has been swum all the same. */
function cutsNow({ state, lanes }: RunView): Cuts {
  const cuts = new Map(state.cuts);
  const atMost = (line: number, n: number): void => {
    const cut = cuts.get(line);
    if (cut !== undefined && n < cut) cuts.set(line, n);
  };
  for (const { last } of lanes) {
    if (!last) continue;
    const { rep, of, rounds } = last;
    if (rep.rep === of) atMost(rep.set.line, rep.of - of);
    rep.set.rounds.forEach(({ line, of: written, round }, depth) => {
      const now = rounds[depth]?.of ?? written;
      if (round === now) atMost(line, written - now);
    });
  }
  return cuts;
}

/** What is left of a stretch's part from the item with a line on. */
function wordsFrom(view: RunView, stretch: Stretch, line: number): readonly string[] {
  const part = partOf(view, stretch);
  const index = part ? itemIndexOf(part, line) : -1;
  const cuts = cutsNow(view);
  return part && index >= 0 ? part.items.slice(index).map((item) => itemWords(item, cuts)) : [];
}

/** Where the stretch that is waited for begins. */
function firstLine(view: RunView): number {
  if (view.stretch.kind !== 'swim') return view.stretch.line;
  const firsts = view.lanes.map(({ next }) => next?.rep.set);
  return earliest(firsts, firstLineOf(view.stretch));
}

function firstLineOf(stretch: Stretch): number {
  if (stretch.kind !== 'swim') return stretch.line;
  return earliest(
    stretch.lanes.map(({ reps }) => reps[0]?.set),
    0,
  );
}

function earliest(sets: readonly (WrittenSet | undefined)[], otherwise: number): number {
  let first: WrittenSet | undefined;
  for (const set of sets) if (set && (!first || set.order < first.order)) first = set;
  return first ? first.line : otherwise;
}

function partOf(view: RunView, stretch: Stretch): Part | undefined {
  return view.state.plan.session.parts[stretch.partIndex];
}

/** "ends 20:27, 3 min in hand". Never promises more than there is: the end is rounded up, what is in hand down. */
function endText(view: RunView, openedAt: Millis): string {
  const end = openedAt + view.projectedEnd;
  const { finishBy } = view.state.plan.session;
  const mark = about(endIsEstimate(view.state));
  const ends = `ends ${mark}${clockTime(end)}`;
  if (finishBy === null) return ends;
  const hand = finishAfter(openedAt, finishBy) - view.projectedEnd;
  return hand < 0
    ? `${ends}, ${mark}${spanWords(Math.ceil(-hand / MINUTE))} over`
    : `${ends}, ${mark}${spanWords(Math.floor(hand / MINUTE))} in hand`;
}

/** "23 min", "3 h 23 min", "2 h". */
function spanWords(minutes: number): string {
  const hours = Math.floor(minutes / (HOUR / MINUTE));
  const rest = minutes - hours * (HOUR / MINUTE);
  if (hours === 0) return `${rest} min`;
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
}

function clockTime(time: Millis): string {
  return timeOfDay(Math.ceil(time / MINUTE) % (24 * 60));
}
