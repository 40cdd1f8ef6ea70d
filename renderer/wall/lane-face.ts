/*
 * What one lane's strip says.
 */

import { reading } from '../../app/core/reading.ts';
import { LEAD } from '../../app/core/run/align.ts';
import { readingAt, type ClockChoice } from '../../app/core/run/readings.ts';
import { countNow } from '../../app/core/run/standing.ts';
import type { LaneView, NextRep, RunView } from '../../app/core/run/view.ts';
import type { Rep, Round, Stretch } from '../../app/core/plan/plan.ts';
import { MINUTE, SECOND, type Millis } from '../../app/core/units.ts';
import { about, intervalText } from '../ui/estimates.ts';
import { leavingNow } from '../ui/leaving.ts';
import { laneSetWords, repWords, setOnLine } from '../ui/set-words.ts';

export interface LaneFace {
  readonly number: number;
  /** first: what the lane will swim, while nobody swims. */
  readonly state: 'waiting' | 'ready' | 'leaving' | 'stopped' | 'out' | 'finished' | 'absent' | 'first';
  /** The next leave as a reading; while leaving, the one that is happening. Empty where there is none. */
  readonly leave: string;
  readonly seconds: string;
  /** Stands in place of a leave: "stopped". */
  readonly word: string;
  /** "2 of 8", also "1 of 1": empty only where nothing is swum, or while nobody swims. */
  readonly rep: string;
  readonly round: string;
  readonly interval: string;
  readonly words: string;
  readonly target: string;
  readonly after: string;
  /** Swimmers away of all, until the tail is away. */
  readonly dots: { readonly away: number; readonly of: number } | null;
  /** 0 to 1 of the strip's width. */
  readonly water: number;
}

/** For so long a strip shows the leave that is happening. */
const LEAVING: Millis = 2000;

/** What the water's full width stands for, in all lanes alike. */
const FULL_WATER: Millis = MINUTE;

const NOTHING = {
  leave: '',
  seconds: '',
  word: '',
  rep: '',
  round: '',
  interval: '',
  words: '',
  target: '',
  after: '',
  dots: null,
  water: 0,
};

/**
 * During a swim. index: the lane's place in lane order; abandonedAt: when a stretch was given up last, as
 * `lastAbandoned` has it.
 */
export function laneFace(
  view: RunView,
  lane: LaneView,
  index: number,
  choice: ClockChoice,
  abandonedAt: Millis,
): LaneFace {
  const { number, state, next, last } = lane;
  const leftHere = view.state.lanes[index]!.leftHere;
  const shown = { ...NOTHING, number, dots: dotsOf(view, lane, abandonedAt) };
  const leaveText = (at: Millis | null): string => {
    const shows = at === null ? null : readingAt(choice, view.clock, view.state, at);
    return shows === null ? '' : reading(shows);
  };
  if (state === 'out') return { ...shown, state, word: 'out' };
  if (state === 'stopped') {
    const swim = next ? swimFace(view, view.stretch, next, index) : {};
    return { ...shown, ...swim, state, word: 'stopped', interval: 'waits for the coach', target: '' };
  }
  if (last !== null && leftHere && view.t - last.at < LEAVING) {
    const swim = swimFace(view, view.stretch, last, index);
    return {
      ...shown,
      ...swim,
      state: 'leaving',
      leave: leaveText(last.at),
      seconds: '0',
      after: thenText(next, leaveText),
    };
  }
  if (next === null || next.at === null) {
    // An untimed set is over at the coach's word, and nobody knows how long a swim before a rest will take.
    const estimate = last !== null && last.rep.set.estimated;
    const words = last === null ? '' : ownWords(view, last, index);
    if (state === 'finished') return { ...shown, state, word: `in by ${about(estimate)}${leaveText(lane.end)}`, words };
    return { ...shown, state: 'absent', word: 'no swim' };
  }
  const left = next.at - view.t;
  return {
    ...shown,
    ...swimFace(view, view.stretch, next, index),
    state: left <= LEAD ? 'ready' : 'waiting',
    leave: leaveText(next.at),
    seconds: secondsText(left),
    after: thenText(lane.after, leaveText),
    water: Math.max(0, Math.min(1, left / FULL_WATER)),
  };
}

function dotsOf(view: RunView, lane: LaneView, abandonedAt: Millis): LaneFace['dots'] {
  const leaving = leavingNow(view, lane, abandonedAt);
  return leaving && { away: leaving.away, of: leaving.swimmers };
}

/** While nobody swims: what the lane swims first of what comes next. index, abandonedAt: as in `laneFace`. */
export function firstFace(view: RunView, lane: LaneView, index: number, abandonedAt: Millis): LaneFace {
  const stretch = view.phase === 'waiting' ? view.stretch : view.following;
  const shown = { ...NOTHING, number: lane.number, dots: dotsOf(view, lane, abandonedAt) };
  if (lane.state === 'out') return { ...shown, state: 'out', word: 'out' };
  const first = view.phase === 'waiting' ? lane.next : firstOf(view, index);
  if (!stretch || !first) return { ...shown, state: 'absent', word: stretch?.kind === 'swim' ? 'no swim' : '' };
  const swim = swimFace(view, stretch, first, index);
  // Of a set that begins its count says how often; of one that is gone on with, the rep.
  if (first.rep.rep > 1) return { ...shown, ...swim, state: 'first' };
  return { ...shown, ...swim, words: setWords(view, stretch, first.rep, index), rep: '', state: 'first' };
}

/** A rep with how many of it and of its rounds there now are, after cuts. */
type Counted = Pick<NextRep, 'rep' | 'of' | 'rounds'>;

function firstOf({ following, state }: RunView, index: number): Counted | null {
  const rep = following?.lanes[index]?.reps[0];
  return rep ? { rep, ...countNow(state, rep, index) } : null;
}

/** Of what is swum at one leave: a lane that has no leave to come is still at it. */
function ownWords(view: RunView, last: Counted, index: number): string {
  const { untimed, kind } = last.rep.set;
  return untimed || kind === 'timed-swim' ? swimFace(view, view.stretch, last, index).words : '';
}

function swimFace(
  view: RunView,
  stretch: Stretch,
  { rep, of, rounds }: Counted,
  index: number,
): Pick<LaneFace, 'rep' | 'round' | 'interval' | 'words' | 'target'> {
  const { untimed, words, kind } = rep.set;
  const span = untimed ? '' : `${kind === 'timed-swim' ? 'for' : 'on'} ${intervalText(rep)}`;
  return {
    rep: `${rep.rep} of ${of}`,
    round: roundText(rounds),
    interval: span,
    words: untimed ? setWords(view, stretch, rep, index) : repWords(rep.distance, words),
    target: rep.target === null ? '' : `hold ${reading(rep.target)}`,
  };
}

/** The lane's share of the whole set that a rep belongs to. */
function setWords(view: RunView, { partIndex }: Stretch, rep: Rep, index: number): string {
  const part = view.state.plan.session.parts[partIndex];
  const item = part ? setOnLine(part, rep.set.line) : null;
  // Of a line that is both rounds and a set, the cuts are of its rounds.
  const cuts = rep.set.rounds.some(({ line }) => line === rep.set.line) ? undefined : view.state.cuts;
  return item?.kind === 'set' ? laneSetWords(item, index, cuts) : repWords(rep.distance, rep.set.words);
}

/** "round 2 of 3"; rounds in rounds from the outermost, "round 2 of 3, 1 of 2". */
function roundText(rounds: readonly Round[]): string {
  const each = rounds.map(({ round, of }) => `${round} of ${of}`);
  return each.length === 0 ? '' : `round ${each.join(', ')}`;
}

/** Seconds while they are two digits, then minutes and seconds. */
function secondsText(left: Millis): string {
  const seconds = Math.ceil(left / SECOND);
  return seconds < 100 ? `${seconds}` : reading(seconds * SECOND);
}

function thenText(rep: NextRep | null, leaveText: (at: Millis | null) => string): string {
  const text = leaveText(rep?.at ?? null);
  return text === '' ? '' : `then ${text}`;
}
