/*
 * Which set a session is in at a moment, the same on every screen: what most lanes swim, and what comes
 * after it. A set is swum from its first leave until the first leave of the next one is at hand; the
 * last rep of a set may take six minutes, and is still that set's.
 */

import { LEAD } from '../../app/core/run/align.ts';
import type { LaneView, NextRep, RunView } from '../../app/core/run/view.ts';
import type { PlannedSet, Rep, Round } from '../../app/core/plan/plan.ts';
import type { Item, Part, SomeLanes } from '../../app/core/session/session.ts';
import { itemIndexOf } from '../../app/core/session/item-on-line.ts';

export interface SwumNow {
  readonly part: Part;
  /** Of the part, with all its rounds; a talk or break too. Several where lanes swim sets of their own at the same time. */
  readonly items: readonly Item[];
  /** The rounds that all lanes are in together, outermost first; empty where they differ or there are none. */
  readonly rounds: readonly Round[];
  /** What the session has next, by its text; null after the last. */
  readonly after: { readonly part: Part; readonly items: readonly Item[] } | null;
}

/**
 * The item that most lanes are in, of two the earlier, with those of other lanes' own that they are in at the same
 * time; while the coach's word is waited for, the first that a lane begins with. null where no lane that is in swims anything of the stretch.
 */
export function swumNow(view: RunView): SwumNow | null {
  const { stretch } = view;
  const { parts } = view.plan.session;
  const part = parts[stretch.partIndex];
  if (!part) return null;
  const reps = repsOf(view);
  const itemOf = view.phase === 'waiting' ? firstItem : commonItem;
  const index = stretch.kind === 'swim' ? itemOf(part, reps) : itemIndexOf(part, stretch.line);
  const item = part.items[index];
  if (!item) return null;
  const rounds = stretch.kind === 'swim' ? commonRounds(reps) : stretch.rounds;
  const items = stretch.kind === 'swim' ? besides(part, item, reps) : [item];
  return { part, items, rounds, after: itemsAfter(parts, stretch.partIndex, items) };
}

/** The one that comes first in the session of those that lanes begin with; undefined where none swims. */
export function firstSet(sets: readonly (PlannedSet | undefined)[]): PlannedSet | undefined {
  let first: PlannedSet | undefined;
  for (const set of sets) if (set && (!first || set.order < first.order)) first = set;
  return first;
}

/** A rep with its counts as they now are, after cuts. */
type Counted = Pick<NextRep, 'rep' | 'of' | 'rounds'>;

/** What a lane swims, or, standing at the wall, will swim next; null where that is nothing in this stretch. */
export function repNow(view: RunView, lane: LaneView): Rep | null {
  return countedNow(view, lane)?.rep ?? null;
}

function countedNow({ t }: RunView, lane: LaneView): Counted | null {
  if (lane.state === 'out' || lane.state === 'absent' || lane.state === 'sits-out') return null;
  const last = lane.leftHere ? lane.last : null;
  const { next } = lane;
  if (!next) return last;
  const atHand = next.at === null || next.at - t <= LEAD;
  return !last || atHand || next.rep.set === last.rep.set ? next : last;
}

/** Of the lanes that are still at it; of all where none is. */
function repsOf(view: RunView): readonly Counted[] {
  const all = view.lanes.map((lane) => ({ rep: countedNow(view, lane), lane }));
  const busy = all.filter(({ lane }) => lane.state !== 'finished' || view.t < lane.end);
  const reps = (of: typeof all): readonly Counted[] => of.map(({ rep }) => rep).filter((rep) => rep !== null);
  return reps(busy).length > 0 ? reps(busy) : reps(all);
}

/** The item that comes first of those that lanes wait to begin with. */
function firstItem(part: Part, reps: readonly Counted[]): number {
  const indexes = reps.map(({ rep }) => itemIndexOf(part, rep.set.line)).filter((index) => index >= 0);
  return indexes.length > 0 ? Math.min(...indexes) : -1;
}

function commonItem(part: Part, reps: readonly Counted[]): number {
  const counts = part.items.map(() => 0);
  for (const { rep } of reps) {
    const index = itemIndexOf(part, rep.set.line);
    if (index >= 0) counts[index] = (counts[index] ?? 0) + 1;
  }
  const most = counts.reduce((found, each) => Math.max(found, each), 0);
  return most === 0 ? -1 : counts.indexOf(most);
}

function commonRounds(reps: readonly Counted[]): readonly Round[] {
  const [first, ...others] = reps.map(({ rounds }) => rounds);
  if (!first) return [];
  const parted = first.findIndex(({ line, round }, depth) =>
    others.some((rounds) => rounds[depth]?.line !== line || rounds[depth]?.round !== round),
  );
  return parted < 0 ? first : first.slice(0, parted);
}

/** An item, and those that no lane of it swims but other lanes are in, in the order of the text. */
function besides(part: Part, item: Item, reps: readonly Counted[]): readonly Item[] {
  const swum = new Set(reps.map(({ rep }) => itemIndexOf(part, rep.set.line)));
  return part.items.filter((other, index) => other === item || (swum.has(index) && !meet(item, other)));
}

/** Whether some lane swims both, one after the other: always, unless each is for lanes of its own. */
function meet(one: Item, other: Item): boolean {
  const [lanes, others] = [lanesOf(one), lanesOf(other)];
  return lanes === null || others === null || lanes.numbers.some((number) => others.numbers.includes(number));
}

function lanesOf(item: Item): SomeLanes {
  return 'lanes' in item ? item.lanes : null;
}

/** What a lane comes to after the items that are swum, with what other lanes swim beside that. */
function itemsAfter(parts: readonly Part[], partIndex: number, items: readonly Item[]): SwumNow['after'] {
  for (const part of parts.slice(partIndex)) {
    const isSame = part === parts[partIndex];
    const index = isSame ? part.items.indexOf(items[0]!) + 1 : 0;
    const rest = part.items.slice(index).filter((item) => !items.includes(item));
    const first = rest.findIndex((item) => !isSame || items.some((each) => meet(each, item)));
    if (first >= 0) return { part, items: fromFirst(rest.slice(first)) };
  }
  return null;
}

/** The first, with those right after it that other lanes swim meanwhile. */
function fromFirst(items: readonly Item[]): readonly Item[] {
  const end = items.findIndex((item, index) => items.slice(0, index).some((before) => meet(before, item)));
  return end < 0 ? items : items.slice(0, end);
}
