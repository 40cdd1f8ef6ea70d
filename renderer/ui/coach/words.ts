/*
 * How reps, sets, lanes and leaves are put in words on the coach's screens.
 */

import { distanceText } from '../../../app/core/lengths.ts';
import { reading } from '../../../app/core/reading.ts';
import { readingAt, type ClockChoice } from '../../../app/core/run/readings.ts';
import { contentOf, textLines } from '../../../app/core/session/lines.ts';
import { countIn } from '../../../app/core/run/view/count.ts';
import { currentStretch, type RunState } from '../../../app/core/run/state.ts';
import type { LaneView, NextRep, RunView } from '../../../app/core/run/view.ts';
import type { Rep, Round } from '../../../app/core/plan/plan.ts';
import { SECOND, type LengthUnit, type Millis } from '../../../app/core/units.ts';

/** "50 fast", "50 m" without words, "15:00 easy swim". */
export function repText({ distance, interval, set }: Rep, unit: LengthUnit): string {
  if (set.kind === 'timed-swim') return join(reading(interval), set.words);
  return set.words === '' ? `${distanceText(distance)} ${unit}` : join(distanceText(distance), set.words);
}

/** "3 of 4", counted as reps now are, after cuts; null where there is but one. */
export function repOf({ rep, of }: Pick<NextRep, 'rep' | 'of'>): string | null {
  return of > 1 ? `${rep.rep} of ${of}` : null;
}

/** "round 2 of 3", outermost first; null outside rounds. */
export function roundText(rounds: readonly Round[]): string | null {
  return rounds.length > 0 ? rounds.map(({ round, of }) => `round ${round} of ${of}`).join(', ') : null;
}

/** "lane 2", "lanes 2 and 4", "all lanes" where those are all that are in. */
export function laneList(numbers: readonly number[], state: RunState): string {
  const inside = state.lanes.filter((lane) => lane.in);
  if (inside.length > 1 && inside.every((lane) => numbers.includes(lane.number))) return 'all lanes';
  return lanesNamed(numbers);
}

/** "lane 2", "lanes 2, 3 and 4". */
export function lanesNamed(numbers: readonly number[]): string {
  return `${numbers.length === 1 ? 'lane' : 'lanes'} ${listed(numbers.map(String))}`;
}

/** A time of the run as the chosen clock will show it; a dash where there is no clock to read yet. */
export function leaveText(choice: ClockChoice, { clock }: Pick<RunView, 'clock'>, at: Millis): string {
  const shown = readingAt(choice, clock, at);
  return shown === null ? '–' : reading(Math.max(0, shown));
}

/** How a sentence says a time of the run. */
export type TimeText = (view: Pick<RunView, 'clock'>, at: Millis) => string;

/** As readings of a clock. */
export function readingsOf(choice: ClockChoice): TimeText {
  return (view, at) => leaveText(choice, view, at);
}

/** Of lanes that are stopped, the numbers of those that an earlier Stop than the last of theirs holds. */
export function stoppedEarlier(lanes: readonly Pick<LaneView, 'number' | 'stop'>[]): readonly number[] {
  const last = Math.max(...lanes.map(({ stop }) => stop ?? -Infinity));
  return lanes.flatMap(({ number, stop }) => (stop !== null && stop < last ? [number] : []));
}

/**
 * Where a lane with nothing more to leave stands: "in by 3:45", with ≈ where that is an estimate, and "in"
 * from then on. An estimate is left standing: nobody knows whether the lane is in.
 */
export function inByText(view: RunView, { last, end }: LaneView, clock: ClockChoice): string {
  const estimate = last !== null && last.rep.set.estimated;
  if (!estimate && view.t >= end) return 'in';
  return `in by ${estimate ? '≈\u00a0' : ''}${leaveText(clock, view, end)}`;
}

/**
 * When a Resume or Rejoin of all stopped lanes, or of those named, would send the first of them off: "goes 6:15", with those that were
 * stopped earlier named: "lane 3 too, goes 6:15"; '' where none is stopped, or for another action.
 */
export function goesText(view: RunView, action: string, clock: ClockChoice, lanes: readonly number[] = []): string {
  if (action !== 'resume' && action !== 'rejoin') return '';
  const isMeant = ({ number }: { readonly number: number }): boolean => lanes.length === 0 || lanes.includes(number);
  const stopped = view.lanes.filter((lane) => lane.state === 'stopped' && isMeant(lane));
  if (stopped.length === 0) return '';
  const times = stopped.map(({ resumeAt, rejoinAt }) => (action === 'resume' ? resumeAt : rejoinAt));
  const first = Math.min(...times.map((time) => time ?? Infinity));
  if (first === Infinity) return action === 'resume' ? 'nothing to resume' : 'nothing left of it';
  const earlier = stoppedEarlier(view.lanes.filter(isMeant));
  const also = earlier.length > 0 ? `${lanesNamed(earlier)} too, ` : '';
  return `${also}goes ${leaveText(clock, view, first)}`;
}

/** What Start begins before its time, and what stopped lanes lose by it: "the break, cuts lane 2 short". */
export function startNowText({ t, phase, clock, stretch, following, lanes }: RunView): string {
  // Before it has begun the current stretch itself comes forward, and nobody loses anything.
  const isAhead = phase === 'going' && t < clock.t0!;
  const lost = isAhead ? [] : lanes.filter((lane) => lane.pending).map(({ number }) => number);
  const begins = isAhead ? stretch : following;
  const what = !begins || begins.kind === 'swim' ? `the ${isAhead ? '' : 'next '}set` : `the ${begins.kind}`;
  if (lost.length === 0) return what;
  return `${what}, cuts ${lost.length > 2 ? count(lost.length, 'lane') : lanesNamed(lost)} short`;
}

/** "in 22 s", "in 1:05": whole seconds to go, a begun one counting whole. */
export function inText(left: Millis): string {
  const whole = secondsToGo(left);
  return whole < 60 ? `in ${whole} s` : `in ${reading(whole * SECOND)}`;
}

/** 7 as long as more than 6 s are left; never below 0. */
export function secondsToGo(left: Millis): number {
  return Math.max(0, Math.ceil(left / SECOND));
}

/** What the current stretch is called where it waits: what is swum or said first, as often as it now is. */
export function stretchText({ stretch, stretches, cuts, plan }: RunView): string {
  if (stretch.kind !== 'swim') return join(`${stretch.kind} ${reading(stretch.time)}`, stretch.words);
  const lane = stretch.lanes.findIndex(({ reps }) => reps.length > 0);
  const first = stretch.lanes[lane]?.reps[0];
  if (!first) return stretch.part;
  const { of } = countIn({ cuts, stretches }, first, lane);
  return `${of > 1 ? `${of} x ` : ''}${repText(first, plan.session.pool.unit)}`;
}

/** "Main set", with the talk or break where the current stretch is one. */
export function currentText(state: RunState): string {
  const stretch = currentStretch(state);
  return stretch.kind === 'swim' ? stretch.part : `${stretch.part}, ${stretch.kind}`;
}

/** A line of a session's text (from 1) as the coach wrote it, without its indent and comment. */
export function writtenLine(text: string, line: number): string {
  return contentOf(textLines(text)[line - 1] ?? '').trim();
}

/** "a", "a and b", "a, b and c". */
export function listed(texts: readonly string[]): string {
  if (texts.length < 2) return texts.join('');
  return `${texts.slice(0, -1).join(', ')} and ${texts[texts.length - 1]}`;
}

export function count(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function join(first: string, words: string): string {
  return words === '' ? first : `${first} ${words}`;
}
