/*
 * `cut`: the last reps of a set, or its last rounds, will not be swum. The cut removes them from every stretch for
 * good, and from what is pending. What has left stays as it is.
 */

import type { Millis } from '../../units.ts';
import { retime } from '../../plan/retime.ts';
import type { LaneReps, Rep, Round, Stretch } from '../../plan/plan.ts';
import { itemsUnder, type Item, type Session } from '../../session/session.ts';
import { done, no, type Outcome } from '../command/answer.ts';
import { isEmpty } from '../place.ts';
import { withoutWaiting } from '../settle.ts';
import { standingIn, type Standing } from './standing.ts';
import type { LaneState, RunState } from '../state.ts';

/** What a cut of a line counts, and how many all cuts of the line together may take; or why it cannot be cut. */
export type Cuttable =
  { readonly kind: 'reps' | 'rounds'; readonly most: number } | { readonly kind: 'nothing'; readonly why: string };

export function cutLine(state: RunState, line: number, n: number, t: Millis): Outcome {
  const cuttable = cuttableAt(state.plan.session, line);
  if (cuttable.kind === 'nothing') return no(cuttable.why);
  const total = (state.cuts.get(line) ?? 0) + n;
  if (total > cuttable.most) {
    const kept = cuttable.kind === 'reps' ? 'rep in every lane' : 'round';
    return no(`Line ${line} must keep at least one ${kept}: cut fewer, or use Move on.`);
  }
  const standing = standingIn(state.stretches);
  const after = withoutCut(
    state,
    cuttable.kind === 'reps' ? lastReps(line, n, standing) : lastRounds(line, n, standing),
    t,
  );
  if (!after) return no(`Line ${line} has nothing left to cut.`);
  return done({ ...after, cuts: new Map(state.cuts).set(line, total) });
}

export function cuttableAt(session: Session, line: number): Cuttable {
  const item = itemAt(session, line);
  switch (item?.kind) {
    case 'rounds':
      return { kind: 'rounds', most: item.times - 1 };
    case 'set': {
      if (item.timing.kind === 'untimed') return { kind: 'nothing', why: 'An untimed set cannot be cut: use Move on.' };
      const counts = item.reps.kind === 'ladder' ? [item.reps.distances.length] : item.reps.counts;
      return { kind: 'reps', most: Math.min(...counts.filter((count) => count > 0)) - 1 };
    }
    case 'block':
    case 'timed-swim':
      return { kind: 'nothing', why: 'A timed swim or timed block cannot be cut: use Skip rep or Move on.' };
    case 'talk':
    case 'break':
      return { kind: 'nothing', why: 'A talk or break cannot be cut: use Move on.' };
    case 'lanes':
    case undefined:
      return { kind: 'nothing', why: `Line ${line} is neither a set nor rounds: choose another line to cut.` };
  }
}

/** What a cut takes away: reps of a lane, and talks and breaks by the rounds they stand in. */
interface Goes {
  readonly rep: (rep: Rep, lane: number) => boolean;
  readonly pause: (rounds: readonly Round[]) => boolean;
}

/** Takes the last n reps that are left of every occurrence: an earlier cut left alone what had been passed over. */
function lastReps(line: number, n: number, standing: Standing): Goes {
  return {
    rep: ({ set, rep }, lane) => set.line === line && rep > standing.reps(set, lane) - n,
    pause: () => false,
  };
}

function lastRounds(line: number, n: number, standing: Standing): Goes {
  const pause = (rounds: readonly Round[]) =>
    rounds.some((round, depth) => round.line === line && round.round > standing.rounds(rounds, depth) - n);
  return { rep: ({ set }) => pause(set.rounds), pause };
}

/** The state without what the cut takes; null if that drops nothing that is pending or in a stretch not begun. */
function withoutCut(state: RunState, goes: Goes, t: Millis): RunState | null {
  const toCome = state.phase === 'going' ? state.index + 1 : state.index;
  let drops = false;
  const stretches = state.stretches.map((stretch, index) => {
    // A stretch that is over stays as it was, so that a restart can go back to it.
    const left = index < state.index ? stretch : withoutFrom(stretch, goes);
    if (left !== stretch && index >= toCome) drops = true;
    return left;
  });
  const lanes = state.lanes.map((lane, index) => withoutPending(lane, goes, index));
  if (!drops && lanes.every((lane, index) => lane === state.lanes[index])) return null;

  const waits = state.phase === 'waiting' ? state.index : -1;
  const kept = stretches.filter((stretch, index) => index < toCome || index === waits || !isEmpty(stretch));
  const after = { ...state, lanes, stretches: kept };
  return waits >= 0 && isEmpty(kept[waits]!, state.from) ? withoutWaiting(after, t) : after;
}

function withoutFrom(stretch: Stretch, goes: Goes): Stretch {
  if (stretch.kind !== 'swim')
    return !stretch.gone && goes.pause(stretch.rounds) ? { ...stretch, gone: true } : stretch;
  const lanes = stretch.lanes.map((lane, index) => withoutReps(lane, goes, index));
  if (lanes.every((lane, index) => lane === stretch.lanes[index])) return stretch;
  return { ...stretch, lanes, untimed: lanes.some(({ reps }) => reps.some(({ set }) => set.untimed)) };
}

function withoutReps(lane: LaneReps, goes: Goes, index: number): LaneReps {
  const reps = lane.reps.filter((rep) => !goes.rep(rep, index));
  return reps.length === lane.reps.length ? lane : retime(reps);
}

/** The lane without the reps that the cut takes. What follows comes sooner by their intervals and a block's leftover time. */
function withoutPending(lane: LaneState, goes: Goes, index: number): LaneState {
  let sooner: Millis = 0;
  const reps = [];
  for (const rep of lane.reps.slice(lane.next)) {
    if (!rep.again && goes.rep(rep, index)) sooner += rep.interval + rep.leftover;
    else reps.push(sooner === 0 ? rep : { ...rep, offset: rep.offset - sooner });
  }
  if (reps.length === lane.reps.length - lane.next) return lane;
  return { ...lane, reps, next: 0, end: lane.end - sooner };
}

function itemAt(session: Session, line: number): Item | null {
  const find = (items: readonly Item[]): Item | null => {
    for (const item of items) {
      if (item.line === line) return item;
      const within = find(itemsUnder(item));
      if (within) return within;
    }
    return null;
  };
  for (const part of session.parts) {
    const item = find(part.items);
    if (item) return item;
  }
  return null;
}
