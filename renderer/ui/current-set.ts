/*
 * Which set a session is in at a moment, the same on every screen: what most lanes swim, and what comes
 * after it. A set is swum from its first leave until the first leave of the next one is at hand; the
 * last rep of a set may take six minutes, and is still that set's.
 */

import { LEAD } from '../../app/core/run/align.ts';
import type { LaneView, RunView } from '../../app/core/run/view.ts';
import type { Rep, Round } from '../../app/core/plan/plan.ts';
import type { Item, Part } from '../../app/core/session/session.ts';
import { itemIndexOf } from './set-words.ts';

export interface SwumNow {
  readonly part: Part;
  /** Of the part, with all its rounds; a talk or break too. */
  readonly item: Item;
  /** The item's place in its part. */
  readonly index: number;
  /** The rounds that all lanes are in together, outermost first; empty where they differ or there are none. */
  readonly rounds: readonly Round[];
  /** What the session has next, by its text; null after the last. */
  readonly after: { readonly part: Part; readonly item: Item } | null;
}

/**
 * The item that most lanes are in, of two the earlier; while the coach's word is waited for, the one that
 * is waited for. null where no lane that is in swims anything of the stretch.
 */
export function swumNow(view: RunView): SwumNow | null {
  const { stretch } = view;
  const { parts } = view.state.plan.session;
  const part = parts[stretch.partIndex];
  if (!part) return null;
  const reps = repsOf(view);
  const index = stretch.kind === 'swim' ? commonItem(part, reps) : itemIndexOf(part, stretch.line);
  const item = part.items[index];
  if (!item) return null;
  const rounds = stretch.kind === 'swim' ? commonRounds(reps) : stretch.rounds;
  return { part, item, index, rounds, after: itemAfter(parts, stretch.partIndex, index) };
}

/**
 * What a lane swims, or, standing at the wall, will swim next; null where that is nothing in this stretch.
 * index: the lane's place in lane order.
 */
export function repNow({ state, t }: RunView, lane: LaneView, index: number): Rep | null {
  if (lane.state === 'out' || lane.state === 'absent') return null;
  const last = state.lanes[index]?.leftHere ? lane.last : null;
  const { next } = lane;
  if (!next) return last ? last.rep : null;
  const atHand = next.at === null || next.at - t <= LEAD;
  return !last || atHand || next.rep.set === last.rep.set ? next.rep : last.rep;
}

/** Of the lanes that are still at it; of all where none is. */
function repsOf(view: RunView): readonly Rep[] {
  const all = view.lanes.map((lane, index) => ({ rep: repNow(view, lane, index), lane }));
  const busy = all.filter(({ lane }) => lane.state !== 'finished' || view.t < lane.end);
  const reps = (of: typeof all): readonly Rep[] => of.map(({ rep }) => rep).filter((rep) => rep !== null);
  return reps(busy).length > 0 ? reps(busy) : reps(all);
}

function commonItem(part: Part, reps: readonly Rep[]): number {
  const counts = part.items.map(() => 0);
  for (const { set } of reps) {
    const index = itemIndexOf(part, set.line);
    if (index >= 0) counts[index] = (counts[index] ?? 0) + 1;
  }
  const most = Math.max(0, ...counts);
  return most === 0 ? -1 : counts.indexOf(most);
}

function commonRounds(reps: readonly Rep[]): readonly Round[] {
  const [first, ...others] = reps.map(({ set }) => set.rounds);
  if (!first) return [];
  const parted = first.findIndex(({ line, round }, depth) =>
    others.some((rounds) => rounds[depth]?.line !== line || rounds[depth]?.round !== round),
  );
  return parted < 0 ? first : first.slice(0, parted);
}

function itemAfter(parts: readonly Part[], partIndex: number, index: number): SwumNow['after'] {
  for (const part of parts.slice(partIndex)) {
    const item = part.items[part === parts[partIndex] ? index + 1 : 0];
    if (item) return { part, item };
  }
  return null;
}
