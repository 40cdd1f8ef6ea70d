/*
 * What one lane's strip says.
 */

import { LEAD } from '../../../app/core/run/align.ts';
import type { ClockChoice } from '../../../app/core/run/readings.ts';
import { countIn } from '../../../app/core/run/view/count.ts';
import { stillToSwim } from '../../../app/core/run/view/still-to-swim.ts';
import { swumIn } from '../../../app/core/run/view/record.ts';
import type { LastView, LaneView, LeftOut, NextRep, RunView } from '../../../app/core/run/view.ts';
import type { Rep, Stretch } from '../../../app/core/plan/plan.ts';
import { setOnLine } from '../../../app/core/session/item-on-line.ts';
import type { Millis } from '../../../app/core/units.ts';
import { inByText } from '../../../app/core/words/time/clock.ts';
import { distanceIn, distanceText } from '../../../app/core/words/distance.ts';
import { holdText, onText } from '../../../app/core/words/interval.ts';
import { commaed, count, spaced } from '../../../app/core/words/phrase.ts';
import { readingLeft, secondsLeft } from '../../../app/core/words/time/reading.ts';
import { repOf, repWords } from '../../../app/core/words/rep.ts';
import { roundText } from '../../../app/core/words/round.ts';
import { laneSetWords } from '../../../app/core/words/set.ts';
import { leavingNow } from '../../ui/leaving.ts';
import { readingOn, tailReadingOn } from '../says/clock-text.ts';

export interface LaneFace {
  readonly number: number;
  /** first: what the lane will swim, while nobody swims; swum: what it has, once the session is done. */
  readonly state: 'waiting' | 'ready' | 'leaving' | 'stopped' | 'out' | 'finished' | 'absent' | 'first' | 'swum';
  /** The next leave as a reading; while leaving, the one that is happening. Empty where there is none. */
  readonly leave: string;
  readonly seconds: string;
  /** Stands in place of a leave: "stopped". */
  readonly word: string;
  /** Said in place of that word where there is room: what a lane that is through still swims, "then Main set". */
  readonly then: string;
  /** "2 of 8", also "1 of 1", of a ladder "150, 3 of 7": empty only where nothing is swum, or while nobody swims. */
  readonly rep: string;
  /** Whether that is the rep which some of the lane's swimmers still wait to begin, while its lead is on the way: "now 2 of 8". */
  readonly isNow: boolean;
  /** Of a ladder the two apart: "150", "3 of 7". */
  readonly rung: { readonly distance: string; readonly count: string } | null;
  readonly round: string;
  readonly interval: string;
  readonly words: string;
  /** Of the session's text: the set that these words are of; 0 for none. */
  readonly line: number;
  /** Or what the lane leaves out: "skips 2 of 4". */
  readonly target: string;
  readonly after: string;
  /** Swimmers away of all, until the tail is away. */
  readonly dots: { readonly away: number; readonly of: number } | null;
  /** Whose turn is next, beside the dots: "4 at 1:45"; and with the swimmer's name, where the session has it: "4 Ada at 1:45". */
  readonly turn: string;
  readonly turnByName: string;
  /** When the water has drained away; null where there is none. */
  readonly drainedAt: Millis | null;
}

/** For so long a strip shows the leave that is happening. */
const LEAVING: Millis = 2000;

const NOTHING = {
  leave: '',
  seconds: '',
  word: '',
  then: '',
  rep: '',
  isNow: false,
  rung: null,
  round: '',
  interval: '',
  words: '',
  line: 0,
  target: '',
  after: '',
  dots: null,
  turn: '',
  turnByName: '',
  drainedAt: null,
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
  const leftHere = lane.leftHere;
  const underWay = leavingNow(view, lane, abandonedAt);
  const readingOf = (at: Millis | null): string => readingOn(choice, view, at);
  const shown = { ...NOTHING, number, ...leavingFace(view, underWay, namesIn(view, number), choice) };
  if (state === 'out') return { ...shown, state, word: 'out' };
  // Swimmers who still wait for their turn wait for that rep, not for the next.
  const isNow = leftHere && underWay !== null;
  const counted = isNow ? underWay : next;
  const swim = counted ? { ...swimFace(view, view.stretch, counted, index), isNow } : {};
  if (state === 'stopped') return { ...shown, ...swim, state, word: 'stopped' };
  if (last !== null && leftHere && view.t - last.at < LEAVING) {
    const now = { leave: readingOf(last.at), seconds: '0', after: thenText(next, readingOf) };
    return { ...shown, ...swimFace(view, view.stretch, last, index), isNow, ...now, state: 'leaving' };
  }
  if (next === null || next.at === null) {
    if (state !== 'finished') return { ...shown, state: 'absent', word: state === 'sits-out' ? 'sits out' : 'no swim' };
    const word = finishedWord(view, lane, choice);
    const then = word === 'waits' ? nextSwum(view, index) : '';
    return { ...shown, ...ownWords(view, last, index), state, word, then };
  }
  const left = next.at - view.t;
  return {
    ...shown,
    ...swim,
    state: left <= LEAD ? 'ready' : 'waiting',
    leave: readingOf(next.at),
    seconds: secondsText(left),
    after: thenText(lane.after, readingOf),
    drainedAt: next.at,
    ...(lane.leftOut && !isNow ? { target: leftOutText(lane.leftOut) } : {}),
  };
}

/** The part that the lane swims in next, or the set where it is one of this part. */
function nextSwum(view: RunView, index: number): string {
  const next = stillToSwim(view, index);
  if (!next) return '';
  const { stretch, rep } = next;
  const isOther = stretch.part !== '' && stretch.partIndex !== view.stretch.partIndex;
  return `then ${isOther ? stretch.part : setWords(view, stretch, rep, index)}`;
}

/** Swimmers of an untimed set are told what ends it once its estimate is past. */
function finishedWord(view: RunView, lane: LaneView, choice: ClockChoice): string {
  const isPast = view.t >= lane.end && lane.last?.rep.set.untimed === true;
  return isPast ? "till the coach's word" : inByText(choice, view, lane);
}

function leavingFace(
  view: RunView,
  leave: LastView | null,
  names: readonly string[],
  choice: ClockChoice,
): Pick<LaneFace, 'dots' | 'turn' | 'turnByName'> {
  if (!leave) return { dots: null, turn: '', turnByName: '' };
  const { at, away, swimmers, tailAt } = leave;
  const gap = (tailAt - at) / (swimmers - 1);
  const goesAt = `at ${tailReadingOn(choice, view, at + away * gap)}`;
  const turn = `${away + 1} ${goesAt}`;
  const name = names[away];
  return {
    dots: { away, of: swimmers },
    turn,
    turnByName: name === undefined ? turn : `${away + 1} ${name} ${goesAt}`,
  };
}

/** A lane's swimmers in the order they leave in; none where the session only counts them. */
function namesIn({ plan }: RunView, number: number): readonly string[] {
  return plan.session.lanes.find((lane) => lane.number === number)?.names ?? [];
}

/** While nobody swims: what the lane swims first of what comes next. The rest as in `laneFace`. */
export function firstFace(
  view: RunView,
  lane: LaneView,
  index: number,
  choice: ClockChoice,
  abandonedAt: Millis,
): LaneFace {
  const stretch = view.phase === 'waiting' ? view.stretch : view.following;
  const leaving = leavingFace(view, leavingNow(view, lane, abandonedAt), namesIn(view, lane.number), choice);
  const shown = { ...NOTHING, number: lane.number, ...leaving };
  if (lane.state === 'out') return { ...shown, state: 'out', word: 'out' };
  const first = view.phase === 'waiting' ? lane.next : firstOf(view, index);
  if (!stretch || !first) return { ...shown, state: 'absent', word: stretch?.kind === 'swim' ? 'no swim' : '' };
  const swim = swimFace(view, stretch, first, index);
  // Of a set that begins its count says how often; of one that is gone on with, the rep.
  if (first.rep.rep > 1) {
    return { ...shown, ...swim, rep: repOf(first), rung: null, words: repWords(first.rep), state: 'first' };
  }
  const own = swim.rung
    ? { words: '', interval: spaced(swim.rung.distance, swim.interval) }
    : { words: setWords(view, stretch, first.rep, index), ...firstTiming(stretch, first.rep, index) };
  return { ...shown, ...swim, ...own, rep: '', rung: null, state: 'first' };
}

/** Of reps that have no interval or target in common, as with `drop`, those of the first. */
function firstTiming({ lanes }: Stretch, first: Rep, index: number): Pick<LaneFace, 'interval' | 'target'> {
  const reps = lanes[index]!.reps.filter(({ set }) => set === first.set);
  const isFirst = (what: 'interval' | 'target', text: string): string =>
    text === '' || reps.every((rep) => rep[what] === first[what]) ? text : `first ${text}`;
  return { interval: isFirst('interval', onText(first)), target: isFirst('target', holdText(first.target)) };
}

/** What a lane has swum of a session that is done. */
export function swumFace(view: RunView, number: number): LaneFace {
  const { reps, distance } = swumIn(view).get(number) ?? { reps: 0, distance: 0 };
  const { unit } = view.plan.session.pool;
  const words = reps === 0 ? 'no swim' : count(reps, 'rep');
  const interval = distance === 0 ? '' : distanceIn(distance, unit);
  return { ...NOTHING, number, state: 'swum', words, interval };
}

/** A rep with how many of it and of its rounds there now are, after cuts. */
type Counted = Pick<NextRep, 'rep' | 'of' | 'rounds'>;

function firstOf({ following, cuts, stretches }: RunView, index: number): Counted | null {
  const rep = following?.lanes[index]?.reps[0];
  return rep ? { rep, ...countIn({ cuts, stretches }, rep, index) } : null;
}

/** Of what is swum at one leave: a lane that has no leave to come is still at it. */
function ownWords(view: RunView, last: Counted | null, index: number): Partial<Pick<LaneFace, 'words' | 'line'>> {
  if (!last || !(last.rep.set.untimed || last.rep.set.kind === 'timed-swim')) return {};
  const { words, line } = swimFace(view, view.stretch, last, index);
  return { words, line };
}

function swimFace(
  view: RunView,
  stretch: Stretch,
  counted: Counted,
  index: number,
): Pick<LaneFace, 'rep' | 'rung' | 'round' | 'interval' | 'words' | 'line' | 'target'> {
  const { rep, rounds } = counted;
  const count = repOf(counted);
  const isRung = !rep.set.untimed && differInDistance(stretch, rep, index);
  const rung = isRung ? { distance: distanceText(rep.distance), count } : null;
  return {
    rep: rung ? commaed(rung.distance, count) : count,
    rung,
    round: roundText(rounds),
    interval: onText(rep),
    words: rep.set.untimed ? setWords(view, stretch, rep, index) : isRung ? rep.words : repWords(rep),
    line: rep.set.line,
    target: holdText(rep.target),
  };
}

/** Whether the lane's reps of a set do, as in a ladder: then swimmers have to be told which comes next. */
function differInDistance({ lanes }: Stretch, { set, distance }: Rep, index: number): boolean {
  return lanes[index]!.reps.some((other) => other.set === set && other.distance !== distance);
}

/** The lane's share of the whole set that a rep belongs to. */
function setWords(view: RunView, { partIndex }: Stretch, rep: Rep, index: number): string {
  const part = view.plan.session.parts[partIndex];
  const item = part ? setOnLine(part, rep.set.line) : null;
  // Of a line that is both rounds and a set, the cuts are of its rounds.
  const cuts = rep.set.rounds.some(({ line }) => line === rep.set.line) ? undefined : view.cuts;
  return item?.kind === 'set' ? laneSetWords(item, index, cuts) : repWords(rep);
}

/** "skips 2 of 4", "sits out 2 reps": said in place of the target until the lane leaves, because its next leave has jumped. */
function leftOutText({ reps, rep, satOut }: LeftOut): string {
  return `${satOut ? 'sits out' : 'skips'} ${reps === 1 ? repOf(rep) : count(reps, 'rep')}`;
}

/** Seconds while they are two digits, then minutes and seconds. */
function secondsText(left: Millis): string {
  const seconds = secondsLeft(left);
  return seconds < 100 ? `${seconds}` : readingLeft(left);
}

function thenText(rep: NextRep | null, readingOf: (at: Millis | null) => string): string {
  const text = readingOf(rep?.at ?? null);
  return text === '' ? '' : `then ${text}`;
}
