/*
 * What the head of the wall screen says: the part, the set as written, what comes next and when the
 * session will be over; and, while nobody swims, what stands large in place of the strips.
 */

import { reading, timeOfDay } from '../../app/core/reading.ts';
import type { RunView } from '../../app/core/run/view.ts';
import type { Stretch, WrittenSet } from '../../app/core/plan/plan.ts';
import type { Part } from '../../app/core/session/session.ts';
import { DAY, MINUTE, SECOND, type Millis } from '../../app/core/units.ts';
import { itemIndexOf, itemWords } from '../ui/set-words.ts';

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
  /** Time left of a talk or break; empty for all else. */
  readonly left: string;
}

export function headFace(view: RunView, openedAt: Millis): Head {
  const end = view.phase === 'done' ? '' : endText(view, openedAt);
  const { part: title } = view.stretch;
  const part = partOf(view, view.stretch);
  if (view.phase === 'waiting') return { title: 'Waiting for the coach', set: '', then: '', end };
  if (view.phase === 'done') return { title: view.state.plan.session.title ?? 'Session', set: '', then: '', end };
  if (view.stretch.kind !== 'swim') return { title, set: '', then: '', end };
  const index = commonItem(view, part);
  const item = part?.items[index];
  return {
    title: title + commonRound(view),
    set: item ? itemWords(item) : '',
    then: thenWords(view, part, index),
    end,
  };
}

/** While the coach's word is waited for. */
export function nextFace(view: RunView): Callout {
  return { title: `Next: ${view.stretch.part}`, lines: wordsFrom(view, view.stretch, firstLine(view)), left: '' };
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
    left: reading(Math.ceil(left / SECOND) * SECOND),
  };
}

export function doneFace(view: RunView, openedAt: Millis): Callout {
  return {
    title: 'Session done',
    lines: [`at ${timeOfDay(Math.floor((openedAt + view.projectedEnd) / MINUTE) % (24 * 60))}`],
    left: '',
  };
}

/** The item of the part that most lanes are in; of two the earlier. -1 where no lane is in any. */
function commonItem(view: RunView, part: Part | undefined): number {
  const counts: number[] = [];
  for (const { next, last, state } of view.lanes) {
    const rep = next?.rep ?? (state === 'finished' ? last?.rep : undefined);
    const index = part && rep ? itemIndexOf(part, rep.set.line) : -1;
    if (index >= 0) counts[index] = (counts[index] ?? 0) + 1;
  }
  let common = -1;
  counts.forEach((count, index) => {
    if (common < 0 || count > counts[common]!) common = index;
  });
  return common;
}

/** ", round 2 of 3" while every lane that swims is in that round of the outermost rounds, else nothing. */
function commonRound(view: RunView): string {
  const rounds = view.lanes
    .filter(({ state }) => state === 'pending' || state === 'stopped')
    .map(({ next }) => next?.rounds[0]);
  const first = rounds[0];
  if (!first || !rounds.every((each) => each?.line === first.line && each.round === first.round)) return '';
  return `, round ${first.round} of ${first.of}`;
}

function thenWords(view: RunView, part: Part | undefined, index: number): string {
  const item = part?.items[index + 1];
  if (item) return `then ${itemWords(item)}`;
  const parts = view.state.plan.session.parts.slice(view.stretch.partIndex + 1);
  const following = parts.find(({ items }) => items.length > 0);
  return following ? `then ${following.name}` : '';
}

/** What is left of a stretch's part from the item with a line on. */
function wordsFrom(view: RunView, stretch: Stretch, line: number): readonly string[] {
  const part = partOf(view, stretch);
  const index = part ? itemIndexOf(part, line) : -1;
  return part && index >= 0 ? part.items.slice(index).map(itemWords) : [];
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
  const about = estimatesToCome(view) ? '≈ ' : '';
  const ends = `ends ${about}${clockTime(end)}`;
  if (finishBy === null) return ends;
  const hand = nearest(finishBy * MINUTE - openedAt) - view.projectedEnd;
  if (hand < 0) return `${ends}, ${Math.ceil(-hand / MINUTE)} min over`;
  return `${ends}, ${Math.floor(hand / MINUTE)} min in hand`;
}

/** The time to a time of day that is nearest: a session opened at 23:50 may finish at 0:30. */
function nearest(span: Millis): Millis {
  if (span < -DAY / 2) return span + DAY;
  return span > DAY / 2 ? span - DAY : span;
}

function clockTime(time: Millis): string {
  return timeOfDay(Math.ceil(time / MINUTE) % (24 * 60));
}

/** Stretches are values: whether the length of one is an estimate is looked up once. */
const estimated = new WeakMap<Stretch, boolean>();

function estimatesToCome({ state }: RunView): boolean {
  return state.stretches.slice(state.index).some((stretch) => {
    let holds = estimated.get(stretch);
    if (holds === undefined) {
      holds = stretch.lanes.some(({ reps }) => reps.some(({ set }) => set.untimed));
      estimated.set(stretch, holds);
    }
    return holds;
  });
}
