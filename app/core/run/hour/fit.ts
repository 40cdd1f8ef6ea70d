/*
 * Fitting the hour: how far the session runs over, when the swim-down must start, and the fewest cuts that bring the
 * end back to the finish. To find what a cut saves, it is carried out on a copy of the state: a set outside the
 * longest lane saves nothing. Whole rounds are cut before the sets in them, because a coach drops a round and not the
 * last 50 of each round. What a lane has begun is cut only if the rest is not enough.
 */

import type { Millis } from '../../units.ts';
import { isSwimDown } from '../../session/lanes/pace.ts';
import { itemsUnder, type Item } from '../../session/session.ts';
import { align, LEAD } from '../align.ts';
import { begunUnits, takesBegun } from '../cuts/begun.ts';
import { cutLine, cuttableAt } from '../cuts/cut.ts';
import { projectedEnd, projectedTimes } from './projection.ts';
import { settle, settleForCommand } from '../settle.ts';
import { openRun, type RunState } from '../state.ts';
import type { Plan } from '../../plan/plan.ts';

export interface Fit {
  /** How far the projected end is past the finish; negative if there is time in hand. */
  readonly over: Millis;
  /** The latest T0 at which the swim-down still ends by the finish; null if it has begun or none is to come. */
  readonly swimDownBy: Millis | null;
  /**
   * If the session runs over: the single cuts that are each enough; if there are none, the fewest that are enough
   * together; if none are, those that come nearest.
   */
  readonly cuts: readonly CutOption[];
  /** `each`: any one of `cuts` is enough. `all`: all of them are needed. `short`: all of them are still not enough. */
  readonly serves: 'each' | 'all' | 'short';
}

export interface CutOption {
  readonly line: number;
  readonly kind: 'reps' | 'rounds';
  /** How many more reps or rounds it cuts. */
  readonly n: number;
  /** How many there are before this cut, in the lane that has most. */
  readonly of: number;
  /** By how much the cut brings the end forward; if all cuts are needed, after those listed before it. */
  readonly saves: Millis;
  /** The projected end after it; if all cuts are needed, after those listed before it too. */
  readonly endsAt: Millis;
  /** Whether it takes the rest of a round or rep that a lane has begun. */
  readonly takesBegun: boolean;
}

/** For a run settled at t; `finishAt` is the booked finish in ms since the run was opened. */
export function fit(state: RunState, t: Millis, finishAt: Millis): Fit {
  const end = projectedEnd(state, t);
  const swimDownBy = latestSwimDown(state, t, finishAt);
  if (end <= finishAt || state.phase === 'done') return { over: end - finishAt, swimDownBy, cuts: [], serves: 'each' };
  return { over: end - finishAt, swimDownBy, ...cutsThatServe(settleForCommand(state, t), t, finishAt) };
}

/** For a plan before its run, as if it started on time; null if the session has no start or no finish. */
export function fitPlan(plan: Plan): Fit | null {
  const booked = bookedTime(plan);
  return booked === null ? null : fit(openRun(plan, 0), startOf(plan), booked);
}

/**
 * Smaller cuts of several lines, which are enough together: from the end of the session on, of each line no more than
 * half. None where it ends in time, where one line is enough so, and where all are not.
 */
export function smallCuts(plan: Plan): readonly CutOption[] {
  const booked = bookedTime(plan);
  const t = startOf(plan);
  const state = settleForCommand(openRun(plan, 0), t);
  if (booked === null || projectedEnd(state, t) <= booked) return [];
  const half: Most = (now, _, line) => Math.min(mostOf(now, t, line), Math.floor(timesOf(state, line) / 2));
  const options = linesToTry(state, t)
    .map((line) => mostThatSaves(state, t, line, half))
    .filter(isOption);
  const lines = roundsFirst(state, options).map(({ line }) => line);
  const cuts = new Map<number, number>();
  let now = state;
  for (const line of lines.sort((a, b) => b - a)) {
    const enough = least(now, t, line, ({ endsAt }) => endsAt <= booked, half);
    const cut = enough ?? mostThatSaves(now, t, line, half);
    if (cut) cuts.set(line, cut.n);
    if (enough) {
      const isAlone = least(state, t, line, ({ endsAt }) => endsAt <= booked, half) !== null;
      return cuts.size > 1 && !isAlone ? oneByOne(state, t, cuts) : [];
    }
    if (cut) now = tryCut(now, t, line, cut.n)!.after;
  }
  return [];
}

/**
 * Before the run: the single cuts of lines inside rounds that are each enough, and end later than a cut of these rounds
 * would. They take something of every round, and all rounds stay.
 */
export function cutsInRounds(plan: Plan): readonly CutOption[] {
  const booked = bookedTime(plan);
  const t = startOf(plan);
  const state = settleForCommand(openRun(plan, 0), t);
  if (booked === null || projectedEnd(state, t) <= booked) return [];
  const alone = cutsAlone(state, t, linesToTry(state, t), ({ endsAt }) => endsAt <= booked, mostOf);
  const whole = roundsFirst(state, alone);
  const earliest = Math.min(...whole.filter(({ kind }) => kind === 'rounds').map(({ endsAt }) => endsAt));
  return alone.filter((option) => !whole.includes(option) && option.endsAt > earliest);
}

function bookedTime({ session: { startsAt, finishBy } }: Plan): Millis | null {
  return startsAt === null || finishBy === null ? null : ((finishBy - startsAt + 1440) % 1440 || 1440) * 60_000;
}

/** Start given at -10 s sets T0 to 0, on the top; a talk or break begins at the command itself. */
function startOf(plan: Plan): Millis {
  return plan.stretches[0]!.kind === 'swim' ? -LEAD : 0;
}

/**
 * The smallest cut of every line that brings the end forward, the most repeated line first: the choices if it gets
 * late. Cuts that take what a lane has begun are listed only if there are no others.
 */
export function singleCuts(now: RunState, t: Millis): readonly CutOption[] {
  const state = settleForCommand(now, t);
  const options = linesToTry(state, t)
    .map((line) => least(state, t, line, (option) => option.saves > 0, mostOf))
    .filter(isOption);
  const whole = options.filter(({ takesBegun }) => !takesBegun);
  return roundsFirst(state, whole.length > 0 ? whole : options);
}

/** A cut that was tried, with the state after it. */
interface Tried extends Omit<CutOption, 'takesBegun'> {
  readonly after: RunState;
}

/** Tries one cut of a line and finds what it saves; null if the cut is refused. */
function tryCut(state: RunState, t: Millis, line: number, n: number): Tried | null {
  const cuttable = cuttableAt(state.plan.session, line);
  const outcome = cutLine(state, line, n, t);
  if (!outcome.ok || cuttable.kind === 'nothing') return null;
  // A stretch that the cut leaves with no reps to come may end at once.
  const after = settle({ ...outcome.state, commandAt: t, steeredAt: t }, t);
  const endsAt = projectedEnd(after, t);
  return {
    line,
    kind: cuttable.kind,
    n,
    of: timesOf(state, line),
    saves: projectedEnd(state, t) - endsAt,
    endsAt,
    after,
  };
}

/** The index of the part that is never cut: the last one named swim-down; if there is none, the last part. */
export function swimDownPart({ plan, stretches }: Pick<RunState, 'plan' | 'stretches'>): number {
  const { parts } = plan.session;
  for (let index = parts.length - 1; index >= 0; index--) if (isSwimDown(parts[index]!.name)) return index;
  return stretches[stretches.length - 1]?.partIndex ?? -1;
}

function latestSwimDown(state: RunState, t: Millis, finishAt: Millis): Millis | null {
  const part = swimDownPart(state);
  const first = state.stretches.findIndex((stretch) => stretch.partIndex === part);
  // A part with nothing to swim is before all stretches.
  const begun = state.phase === 'going' ? first <= state.index : first < state.index;
  if (begun || state.phase === 'done') return null;
  const times = projectedTimes(state, t);
  const takes = times[times.length - 1]!.end - times[first - state.index]!.start;
  // The last round reading at or before the latest start.
  return align(state, finishAt - takes - state.startOn + 1);
}

/** How many reps or rounds of a line may be cut. */
type Most = (state: RunState, t: Millis, line: number) => number;

/** Cuts whole rounds and reps if they are enough; if not, what lanes have begun as well. */
function cutsThatServe(state: RunState, t: Millis, finishAt: Millis): Pick<Fit, 'cuts' | 'serves'> {
  const lines = linesToTry(state, t);
  const whole = cutsUpTo(state, t, lines, finishAt, mostWhole);
  return whole.serves === 'short' && state.departed.length > 0 ? cutsUpTo(state, t, lines, finishAt, mostOf) : whole;
}

function cutsUpTo(
  state: RunState,
  t: Millis,
  lines: readonly number[],
  finishAt: Millis,
  most: Most,
): Pick<Fit, 'cuts' | 'serves'> {
  const serves = (option: Tried): boolean => option.endsAt <= finishAt;
  const alone = cutsAlone(state, t, lines, serves, most);
  if (alone.length > 0) return { cuts: roundsFirst(state, alone), serves: 'each' };
  return together(state, t, lines, serves, most);
}

/** Of each line the smallest cut that is enough alone, where there is one. */
function cutsAlone(
  state: RunState,
  t: Millis,
  lines: readonly number[],
  serves: (option: Tried) => boolean,
  most: Most,
): readonly CutOption[] {
  return lines.map((line) => least(state, t, line, serves, most)).filter(isOption);
}

/**
 * The fewest cuts together: all of the one that saves most, then of the next, and of the last only what is needed. A
 * line's turn comes again where cuts of others have made it count.
 */
function together(
  state: RunState,
  t: Millis,
  lines: readonly number[],
  serves: (option: Tried) => boolean,
  most: Most,
): Pick<Fit, 'cuts' | 'serves'> {
  const cuts = new Map<number, number>();
  let now = state;
  for (;;) {
    const options = lines.map((line) => mostThatSaves(now, t, line, most)).filter(isOption);
    if (options.length === 0) return { cuts: oneByOne(state, t, cuts), serves: 'short' };
    const best = roundsFirst(now, options).reduce((a, b) => (b.saves > a.saves ? b : a));
    const enough = least(now, t, best.line, serves, most);
    const { line, n } = enough ?? best;
    cuts.set(line, (cuts.get(line) ?? 0) + n);
    if (enough) return { cuts: oneByOne(state, t, cuts), serves: 'all' };
    now = tryCut(now, t, line, n)!.after;
  }
}

/** Cuts of so many of each line, each after those before it. */
function oneByOne(state: RunState, t: Millis, cuts: ReadonlyMap<number, number>): readonly CutOption[] {
  let now = state;
  return Array.from(cuts, ([line, n]) => {
    const tried = tryCut(now, t, line, n)!;
    const option = optionOf(now, tried);
    now = tried.after;
    return option;
  });
}

/** The options without the cuts of lines inside rounds that can be cut as well. */
function roundsFirst(state: RunState, options: readonly CutOption[]): readonly CutOption[] {
  const rounds = new Set(options.filter(({ kind }) => kind === 'rounds').map(({ line }) => line));
  const inside = new Set<number>();
  const look = (items: readonly Item[], within: boolean): void => {
    for (const item of items) {
      // A set written on the same line as its rounds is cut by its rounds anyway.
      if (within && (item.kind === 'rounds' || !rounds.has(item.line))) inside.add(item.line);
      look(itemsUnder(item), within || rounds.has(item.line));
    }
  };
  for (const { items } of state.plan.session.parts) look(items, false);
  return options.filter(({ line }) => !inside.has(line));
}

/** At most this many lines are tried, the most repeated first; no real session has as many. */
const MOST_TRIED = 60;

/** Stretches to work out in all. Each try works out every stretch, so a session of thousands tries fewer lines. */
const MOST_WORKED_OUT = 30_000;

/** Lines to come that can be cut: the most repeated first, equal ones in the order of the session. */
function linesToTry(state: RunState, t: Millis): readonly number[] {
  const kept = swimDownPart(state);
  const lines = new Set<number>();
  for (const stretch of state.stretches.slice(state.index)) {
    if (stretch.partIndex === kept) continue;
    for (const { reps } of stretch.lanes) {
      for (const { set } of reps) {
        lines.add(set.line);
        set.rounds.forEach((round) => lines.add(round.line));
      }
    }
  }
  const most = Math.max(3, Math.min(MOST_TRIED, Math.floor(MOST_WORKED_OUT / state.stretches.length)));
  return [...lines]
    .filter((line) => mostOf(state, t, line) > 0)
    .sort((a, b) => timesOf(state, b) - timesOf(state, a) || a - b)
    .slice(0, most);
}

/** How often a line is repeated as written: its rounds, or its reps in the longest lane; 0 if it is not swum. */
function timesOf({ stretches }: RunState, line: number): number {
  const known = timesBy.get(stretches) ?? timesIn(stretches);
  timesBy.set(stretches, known);
  return known.get(line) ?? 0;
}

/** Kept by the list of stretches, which many tries share. */
const timesBy = new WeakMap<RunState['stretches'], ReadonlyMap<number, number>>();

function timesIn(stretches: RunState['stretches']): ReadonlyMap<number, number> {
  const times = new Map<number, number>();
  const atLeast = (line: number, n: number): void => void times.set(line, Math.max(times.get(line) ?? 0, n));
  for (const { lanes } of stretches) {
    for (const { reps } of lanes) {
      for (const { set, rep } of reps) {
        set.rounds.forEach(({ line, round }) => atLeast(line, round));
        // A set written on the same line as its rounds is counted by the rounds.
        if (set.rounds.every((round) => round.line !== set.line)) atLeast(set.line, rep);
      }
    }
  }
  return times;
}

/** The smallest cut of a line that saves as much as its largest; null if that saves nothing. */
function mostThatSaves(state: RunState, t: Millis, line: number, most: Most): CutOption | null {
  const all = tryCut(state, t, line, most(state, t, line));
  if (!all || all.saves <= 0) return null;
  return least(state, t, line, (option) => option.saves >= all.saves, most);
}

/** The least n that is enough, found by halving: a larger cut never ends later. */
function least(
  state: RunState,
  t: Millis,
  line: number,
  enough: (option: Tried) => boolean,
  most: Most,
): CutOption | null {
  let found: Tried | null = null;
  let low = 1;
  let high = most(state, t, line);
  while (low <= high) {
    const middle = (low + high) >>> 1;
    const option = tryCut(state, t, line, middle);
    if (option && enough(option)) {
      found = option;
      high = middle - 1;
    } else low = middle + 1;
  }
  return found && optionOf(state, found);
}

function optionOf(state: RunState, { after, ...option }: Tried): CutOption {
  return { ...option, takesBegun: takesBegun(state, after, option.line) };
}

function mostOf(state: RunState, _t: Millis, line: number): number {
  const cuttable = cuttableAt(state.plan.session, line);
  return cuttable.kind === 'nothing' ? 0 : cuttable.most - (state.cuts.get(line) ?? 0);
}

/** The largest cut of a line that takes nothing begun, found by halving: a larger cut never takes less of that. */
function mostWhole(state: RunState, t: Millis, line: number): number {
  let low = 0;
  let high = mostOf(state, t, line);
  const begun = begunUnits(state, line);
  if (begun.size === 0) return high;
  while (low < high) {
    const middle = (low + high + 1) >>> 1;
    const outcome = cutLine(state, line, middle, t);
    if (outcome.ok && takesBegun(state, outcome.state, line, begun)) high = middle - 1;
    else low = middle;
  }
  return low;
}

function isOption(option: CutOption | null): option is CutOption {
  return option !== null;
}
