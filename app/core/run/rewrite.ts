/*
 * `rewrite` compares the old and the new text piece by piece. The first pieces that are the same stay, and what has
 * begun must be among them. What the new text has after them replaces what was to come, in the stretch that is going
 * too.
 */

import type { Millis } from '../units.ts';
import { openPlan } from '../plan/open-plan.ts';
import type { Rep, Stretch } from '../plan/plan.ts';
import { laneLength, retime } from '../plan/retime.ts';
import { piecesOf, samePieces, type Piece } from '../session/text/pieces.ts';
import { align, LEAD } from './align.ts';
import { done, no, type Outcome } from './command/answer.ts';
import { stopToJoin, unlessTooSoon } from './command/lane-change.ts';
import { isEmpty, placeIn, placeOf, startingFrom, type Place } from './place.ts';
import { done as doneAt, waitAt, withoutWaiting } from './settle.ts';
import {
  currentStretch,
  departedHere,
  isPending,
  nextLeave,
  type LaneState,
  type Pending,
  type RunState,
} from './state.ts';

export function rewritten(state: RunState, text: string, t: Millis): Outcome {
  const { source, session } = state.plan;
  const opened = openPlan({ text, lanesText: source.lanesText }, state.plan);
  if (!opened.ok) {
    const first = opened.faults.faults[0]!;
    return no(`The new text has a fault in line ${first.line}: ${first.message}`);
  }
  const plan = opened.value;
  const before = piecesOf(source.text, session);
  const after = piecesOf(text, plan.session);
  const stay = samePieces(before, after, source.text, text);
  if (stay < begunPieces(state, before)) {
    const changed = before[stay]!;
    return no(
      changed.first === 1
        ? 'The title, lanes and settings before the first part cannot be changed during a run.'
        : `Line ${changed.first} has begun, or comes before a line that has: it cannot be changed now.`,
    );
  }
  const goes = before[stay]?.first ?? Infinity;
  const comes = after[stay]?.first ?? Infinity;
  const renewed = withNewLines({ ...withoutLines(state, goes), plan }, comes);
  const from = placeAfter(renewed, state.from, goes, comes);
  if (state.phase === 'waiting') return done(atWhatIsLeft(renewed, from, t));
  const lanes = joinLanes(state, { ...renewed, from }, comes, t);
  return unlessTooSoon(state, { ...renewed, from, lanes }, t);
}

/** The first line of the text in force that may still be changed, counted from 1; one past the last line if none may. */
export function firstLineToCome(state: RunState): number {
  const pieces = piecesOf(state.plan.source.text, state.plan.session);
  return pieces[begunPieces(state, pieces) - 1]!.last + 1;
}

/** What a rewrite has made the run forget, as line numbers of the old text, in order. */
export interface Forgotten {
  readonly cuts: readonly number[];
  readonly intervals: readonly number[];
}

/** The cuts and changed intervals that went with the replaced lines, from the states before and after a rewrite. */
export function forgottenBetween(before: RunState, after: RunState): Forgotten {
  const gone = (lines: Iterable<number>, still: { has(line: number): boolean }): number[] =>
    [...lines].filter((line) => !still.has(line)).sort((a, b) => a - b);
  return { cuts: gone(before.cuts.keys(), after.cuts), intervals: gone(before.retimed, after.retimed) };
}

/** How many of the first pieces have begun. The piece before the first part always has. */
function begunPieces(state: RunState, pieces: readonly Piece[]): number {
  if (state.phase === 'done') return pieces.length;
  let line = 0;
  // Cuts can leave a stretch that has begun without reps: then the stretches before it decide.
  for (let index = state.index - 1; index >= 0 && line === 0; index--) line = lastLineOf(state.stretches[index]!);
  if (state.phase === 'going') {
    const first = firstLineOf(currentStretch(state));
    if (first < Infinity) line = Math.max(line, first);
    for (const { reps, to } of departedHere(state)) line = Math.max(line, reps[to - 1]!.set.line);
  }
  const begun = pieceAt(pieces, line) + 1;
  // The piece with the place that a `go-to` named may be changed; those before it may not.
  return state.phase === 'waiting' && state.from ? Math.max(begun, pieceAt(pieces, state.from.line)) : begun;
}

/** The index of the piece that holds a line. */
function pieceAt(pieces: readonly Piece[], line: number): number {
  let at = 0;
  while (at + 1 < pieces.length && pieces[at + 1]!.first <= line) at++;
  return at;
}

/** A line of the stretch's last piece. Pieces are in order in every lane, so only the last rep of each lane matters. */
function lastLineOf(stretch: Stretch): number {
  return stretch.lanes.reduce((line, { reps }) => Math.max(line, reps[reps.length - 1]?.set.line ?? 0), stretch.line);
}

function firstLineOf(stretch: Stretch): number {
  if (stretch.kind !== 'swim') return stretch.line;
  return stretch.lanes.reduce((line, { reps }) => Math.min(line, reps[0]?.set.line ?? Infinity), Infinity);
}

/** The run without everything from a line of the text in force on: stretches, pending reps, cuts and intervals. */
function withoutLines(state: RunState, line: number): RunState {
  const stretches: Stretch[] = [];
  for (const stretch of state.stretches) {
    if (lastLineOf(stretch) < line) stretches.push(stretch);
    else if (firstLineOf(stretch) < line) stretches.push(withRepsBefore(stretch, line));
  }
  return {
    ...state,
    stretches,
    lanes: state.lanes.map((lane) => withPendingBefore(lane, line)),
    cuts: new Map([...state.cuts].filter(([of]) => of < line)),
    retimed: new Set([...state.retimed].filter((of) => of < line)),
  };
}

function withRepsBefore(stretch: Stretch, line: number): Stretch {
  return withLanes(
    stretch,
    stretch.lanes.map(({ reps }) => reps.filter(({ set }) => set.line < line)),
  );
}

function withLanes(stretch: Stretch, lanes: readonly (readonly Rep[])[]): Stretch {
  return {
    ...stretch,
    lanes: lanes.map((reps) => retime(reps)),
    untimed: lanes.some((reps) => reps.some(({ set }) => set.untimed)),
  };
}

function withPendingBefore(lane: LaneState, line: number): LaneState {
  const pending = lane.reps.slice(lane.next);
  const reps = pending.filter(({ set }) => set.line < line);
  return { ...lane, reps, next: 0, end: lane.end - laneLength(pending) + laneLength(reps) };
}

/**
 * The stretches that stay, followed by what the new plan has from line `comes` on. If nothing in the text divides the
 * new reps from the last stretch that stays, they join it; never a stretch before the current one.
 */
function withNewLines(kept: RunState, comes: number): RunState {
  const planned = kept.plan.stretches;
  const first = planned.findIndex((stretch) => lastLineOf(stretch) >= comes);
  if (first < 0) return kept;
  const [next, ...later] = [planned[first]!, ...planned.slice(first + 1)];
  // If it begins with lines that stay, nothing in the text divides its new lines from them.
  if (firstLineOf(next) >= comes) return { ...kept, stretches: [...kept.stretches, next, ...later] };
  const more = next.lanes.map(({ reps }) => reps.filter(({ set }) => set.line >= comes));
  const last = kept.stretches.length - 1;
  const target = kept.stretches[last];
  if (last < kept.index || target?.kind !== 'swim') {
    return { ...kept, stretches: [...kept.stretches, withLanes(next, more), ...later] };
  }
  const longer = target.lanes.map(({ reps }, index) => [...reps, ...more[index]!]);
  return { ...kept, stretches: [...kept.stretches.slice(0, last), withLanes(target, longer), ...later] };
}

/**
 * The lanes of the stretch that is going, with the reps that have joined it from line `comes` on put behind what they
 * still have: all of those reps, or those from the place that a `go-to` named.
 */
function joinLanes(before: RunState, after: RunState, comes: number, t: Millis): readonly LaneState[] {
  const stop = stopToJoin(before);
  return after.lanes.map((lane, index) => {
    const own = currentStretch(after).lanes[index];
    if (!lane.takesPart || !own) return lane;
    const reps = startingFrom(own, after.from).reps.filter(({ set }) => set.line >= comes);
    if (reps.length === 0) return lane;
    const was = before.lanes[index]!;
    const stoppedBy = isPending(was) ? was.stoppedBy : stop;
    const leave = isPending(lane) || stoppedBy !== null ? lane.end : joinsAt(before, was, lane.end, t);
    return { ...withMore(lane, reps, leave), stoppedBy, hadRep: true };
  });
}

/** When the first new rep leaves in a lane that has nothing else pending and is not stopped. */
function joinsAt(state: RunState, was: LaneState, end: Millis, t: Millis): Millis {
  if (isPending(was)) return nextLeave(was);
  return end >= t + LEAD ? end : align(state, t + LEAD);
}

function withMore(lane: LaneState, more: readonly Rep[], leave: Millis): LaneState {
  let offset = leave - lane.origin;
  const reps: Pending[] = lane.reps.slice(lane.next);
  for (const rep of more) {
    reps.push({ ...rep, offset });
    offset += rep.interval + rep.leftover;
  }
  return { ...lane, reps, next: 0, end: lane.origin + offset };
}

/**
 * Where a waiting run stands after a rewrite: at the stretch that took the old one's place, from the place that a
 * `go-to` named. A stretch with nothing left from there is removed. If no stretch is left, the session is done.
 */
function atWhatIsLeft(state: RunState, from: Place | null, t: Millis): RunState {
  const stretch = state.stretches[state.index];
  if (!stretch) return doneAt(state, t);
  if (isEmpty(stretch, from)) return withoutWaiting(state, t);
  return waitAt(state, state.index, stretch.kind === 'swim' ? from : null);
}

/** The place of nothing yet: what stays of the stretch lies before it, and what joins later begins anew. */
const AFTER_ALL: Place = { order: Infinity, rep: 1, line: Infinity, rounds: [] };

/** The place that a `go-to` named, once old lines from `goes` on are replaced by new lines from `comes` on. */
function placeAfter(state: RunState, from: Place | null, goes: number, comes: number): Place | null {
  const stretch = state.stretches[state.index];
  if (!from || from.line < goes || !stretch) return from;
  return placeIn(stretch, from) ?? firstPlace(stretch, comes) ?? AFTER_ALL;
}

/** The first place of a stretch, in the order of the session, on a line from `comes` on. */
function firstPlace(stretch: Stretch, comes: number): Place | null {
  let first: Rep | null = null;
  for (const { reps } of stretch.lanes) {
    const rep = reps.find(({ set }) => set.line >= comes);
    if (rep && (!first || rep.set.order < first.set.order)) first = rep;
  }
  return first && placeOf(first);
}
