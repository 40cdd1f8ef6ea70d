/*
 * `rewrite`: the first pieces that are the same in both texts stay, all others are replaced. What the
 * new text has behind them is taken from the plan of the whole new text.
 */

import type { Command } from './command.ts';
import type { Refusal } from '../invent/named-lanes.ts';
import { pieceWith, piecesOf, samePieces, type Piece } from '../pieces.ts';
import { dropTheEmpty } from './run-cut.ts';
import { finishRun, groupToJoin } from './run-events.ts';
import { isSameRep, placeOf } from './run-moves.ts';
import {
  align,
  currentStretch,
  freshStretches,
  hasPending,
  isGoingSwim,
  isStopped,
  LEAD,
  nextLeave,
  notBefore,
  type LaneState,
  type RunState,
  type StartingPlace,
} from './run-state.ts';
import type { WrittenScenario } from '../scenario.ts';
import { walk, type ModelRep, type ModelStretch } from '../timetable/stretches-model.ts';

/** What texts mean. A text that is not among them has faults. */
export type KnownTexts = ReadonlyMap<string, WrittenScenario>;

export function rewrite(state: RunState, command: Command, number: number, texts: KnownTexts): Refusal {
  const t = command.atMs;
  const rewritten = texts.get(command.text ?? '');
  if (!rewritten) return 'the text has faults';
  const oldPieces = piecesOf(state.written);
  const newPieces = piecesOf(rewritten);
  const staying = samePieces(oldPieces, newPieces);
  if (lastToStay(state, oldPieces) >= staying) return 'what has begun is not the same';

  // Lines that stay have the same numbers in both texts.
  const stays = (line: number): boolean => pieceWith(oldPieces, line) < staying;
  const isNew = (line: number): boolean => pieceWith(newPieces, line) >= staying;
  state.written = rewritten;
  state.cuts = new Map([...state.cuts].filter(([line]) => stays(line)));
  const group = groupToJoin(state, number);
  takeOutOfStretches(state, stays);
  const joining = addToStretches(state, isNew);
  findStartingPlace(state, stays, isNew);
  if (isGoingSwim(state)) for (const lane of state.lanes) swimOther(state, lane, stays, joining, group, t);
  if (state.phase === 'waiting') {
    if (state.current >= state.stretches.length) finishRun(state, t);
    else dropTheEmpty(state, state.current, t);
  }
  return null;
}

/** The index of the last piece that has begun. */
function lastToStay(state: RunState, pieces: readonly Piece[]): number {
  const begun = [0];
  for (const stretch of state.stretches.slice(0, state.current)) begun.push(...piecesIn(stretch, pieces));
  if (state.phase === 'going') {
    const inCurrent = piecesIn(currentStretch(state), pieces);
    if (inCurrent.length > 0) begun.push(Math.min(...inCurrent));
    for (const line of state.linesLeft) begun.push(pieceWith(pieces, line));
  } else if (state.startFrom !== null) {
    begun.push(pieceWith(pieces, state.startFrom.line) - 1);
  }
  return Math.max(...begun);
}

function piecesIn(stretch: ModelStretch, pieces: readonly Piece[]): number[] {
  const lines = new Set(stretch.line === null ? stretch.lanes.flat().map((rep) => rep.line) : [stretch.line]);
  return [...lines].map((line) => pieceWith(pieces, line));
}

/** What is replaced leaves the stretches, and those go of which nothing stays. */
function takeOutOfStretches(state: RunState, stays: (line: number) => boolean): void {
  const firstToGo = state.phase === 'waiting' ? state.current : state.current + 1;
  state.stretches = state.stretches.filter((stretch, index) => {
    for (const reps of stretch.lanes) {
      const staying = reps.filter((rep) => stays(rep.line));
      reps.splice(0, reps.length, ...staying);
    }
    if (index < firstToGo) return true;
    return stretch.line === null ? stretch.lanes.flat().length > 0 : stays(stretch.line);
  });
}

/**
 * What is new comes behind all that stays, in the stretches that the plan of the whole new text has.
 * Where that plan has something that stays right before it in the same stretch, nothing in the text
 * divides the two, and it joins the last stretch that is still to be swum: usually that very one, but
 * an earlier round's where the last rounds have been cut. Returns what joins the current stretch, a
 * list a lane.
 */
function addToStretches(state: RunState, isNew: (line: number) => boolean): ModelRep[][] {
  let joining: ModelRep[][] = [];
  for (const planned of freshStretches(state.written.scenario)) {
    const lanes = planned.lanes.map((reps) => reps.filter((rep) => isNew(rep.line)));
    const hasNew = planned.line === null ? lanes.flat().length > 0 : isNew(planned.line);
    if (!hasNew) continue;
    const isUndivided = planned.lanes.flat().some((rep) => !isNew(rep.line));
    const index = state.stretches.length - 1;
    const last = index >= state.current ? state.stretches[index] : undefined;
    if (!isUndivided || last?.kind !== 'swim') {
      state.stretches.push({ ...planned, lanes });
      continue;
    }
    last.lanes.forEach((reps, laneIndex) => reps.push(...(lanes[laneIndex] ?? [])));
    if (index === state.current) joining = lanes;
  }
  return joining;
}

/** With nothing new in the stretch: all that stays comes before the place. */
const AFTER_ALL: StartingPlace = { line: Infinity, rounds: [], rep: 1, place: Infinity };

/** The place that a `go-to` named, where the new text still has that rep; else the first one that is new there. */
function findStartingPlace(state: RunState, stays: (line: number) => boolean, isNew: (line: number) => boolean): void {
  const stretch = state.stretches[state.current];
  // A line that stays has its place in the new text, even if the rep has been cut.
  if (state.startFrom === null || !stretch || (state.startFrom.line < Infinity && stays(state.startFrom.line))) return;
  const { line, rounds, rep: number } = state.startFrom;
  const isFirst = (rep: ModelRep, others: readonly ModelRep[]): boolean =>
    others.every((other) => rep.place < other.place || (rep.place === other.place && rep.rep <= other.rep));
  const fresh = stretch.lanes.flat().filter((rep) => isNew(rep.line));
  const same = fresh.find((rep) => isSameRep(rep, line, rounds, number));
  const first = fresh.find((rep) => isFirst(rep, fresh));
  if (same) state.startFrom = placeOf(same);
  else if (first) state.startFrom = placeOf(first);
  else state.startFrom = stretch.line === null ? AFTER_ALL : null;
}

/** In one lane of the swim that is going: what is replaced is dropped, what joins follows. */
function swimOther(
  state: RunState,
  lane: LaneState,
  stays: (line: number) => boolean,
  joining: readonly ModelRep[][],
  group: number | null,
  t: number,
): void {
  if (!lane.takesPart) return;
  const shown = nextLeave(lane);
  for (const { rep, again } of lane.pending.filter((pending) => !stays(pending.rep.line))) {
    lane.end -= rep.interval + (again ? 0 : rep.leftover);
  }
  lane.pending = lane.pending.filter((pending) => stays(pending.rep.line));

  const reps = notBefore(joining[lane.index] ?? [], state.startFrom);
  if (reps.length === 0) return;
  if (shown === null) lane.stoppedBy = group;
  const first = firstNewLeave(state, lane, shown, t);
  const { offsets, length } = walk(reps);
  lane.pending.push(...reps.map((rep, index) => ({ rep, leave: first + (offsets[index] ?? 0), again: false })));
  lane.end = first + length;
  lane.hadRep = true;
}

function firstNewLeave(state: RunState, lane: LaneState, shown: number | null, t: number): number {
  if (hasPending(lane) || isStopped(lane)) return lane.end;
  if (shown !== null) return shown;
  return lane.end < t + LEAD ? align(state, t + LEAD) : lane.end;
}
