/*
 * The warnings of one lane about each line: intervals, rest, number of swimmers and the far end. Expected times are
 * compared exactly, before they are rounded for showing.
 */

import { roundedLengths } from '../../lengths.ts';
import { add, ceilTo, compare, floorDivide, multiply, ratio, type Ratio } from '../../ratio.ts';
import { ASSUMED_BASE, expectedSwim, factorOf, targetOf } from '../../session/lanes/pace.ts';
import type { Lane, Session } from '../../session/session.ts';
import { SECOND, type Millis, type Tenths } from '../../units.ts';
import { distanceIn, poolText } from '../../words/distance.ts';
import { count } from '../../words/phrase.ts';
import { reading, spanText } from '../../words/time/reading.ts';
import type { Plan, Rep } from '../plan.ts';
import { tailOf } from '../schedule.ts';
import type { SwimLine } from './swim-lines.ts';
import type { Swim } from '../swims.ts';
import type { Warning } from './warning.ts';

/** With less rest than this, the lead only just has time to look at the clock. */
const LEAST_REST = ratio(5 * SECOND);

/** A lane's view of the plan. */
interface LaneView {
  readonly plan: Plan;
  readonly session: Session;
  readonly lane: Lane;
  /** In lane order. */
  readonly index: number;
}

/** A rep with an interval, or of an untimed set, as the warnings need it. */
interface Judged {
  readonly distance: Tenths;
  readonly expected: Ratio;
  readonly held: boolean;
  /** 0 for an untimed set. */
  readonly interval: Millis;
  /** The interval minus the expected time; null for an untimed set. */
  readonly rest: Ratio | null;
}

/** The warnings of the lane at `index` in lane order, not sorted; `lines` are those of the plan's session. */
export function laneWarnings(plan: Plan, lines: readonly SwimLine[], index: number): readonly Warning[] {
  const { session } = plan;
  const view: LaneView = { plan, session, lane: session.lanes[index]!, index };
  const warnings = [...tailLate(view), ...farEnds(view, lines), ...assumedBase(view, lines)];
  for (const line of lines) {
    const reps = judgedReps(view, line);
    warnings.push(...restWarning(view, line, reps), ...laneFull(view, line, reps));
  }
  return warnings;
}

/** The reps with the least rest first; none for a swim by time. */
function judgedReps({ lane, index }: LaneView, { item, partName, distances, swims }: SwimLine): readonly Judged[] {
  if (item.kind === 'timed-swim') return [];
  if (item.timing.kind === 'untimed') {
    const factor = factorOf(item.words, partName);
    return distances[index]!.map((distance) => {
      const target = targetOf(lane, item.hold?.[index], distance);
      const expected = expectedSwim(lane, distance, factor, target);
      return { distance, expected, held: target !== null, interval: 0, rest: null };
    });
  }
  return swims[index]!.filter(differsFromBefore)
    .map(({ words, distance, target, interval }) => {
      const expected = expectedSwim(lane, distance, factorOf(words, partName), target);
      const rest = add(ratio(interval), ratio(-expected.num, expected.den));
      return { distance, expected, held: target !== null, interval, rest };
    })
    .sort((a, b) => compare(a.rest, b.rest));
}

function differsFromBefore(swim: Swim, place: number, swims: readonly Swim[]): boolean {
  const before = swims[place - 1];
  if (!before || before.distance !== swim.distance || before.interval !== swim.interval) return true;
  return before.target !== swim.target || before.words !== swim.words;
}

/** `cannot-make`, or else `rest-short`. */
function restWarning({ session, lane }: LaneView, { item }: SwimLine, reps: readonly Judged[]): Warning[] {
  const rep = reps[0];
  if (!rep?.rest || compare(rep.rest, LEAST_REST) >= 0) return [];
  const swim = `${distanceIn(rep.distance, session.pool.unit)} on ${reading(rep.interval)}`;
  const takes = rep.held
    ? `held at ${reading(ceilTo(100, rep.expected))}`
    : `expected to take about ${reading(ceilTo(100, rep.expected))}${assumption(lane)}`;
  if (compare(rep.rest, ratio(0)) < 0) {
    const message = `Lane ${lane.number} cannot make ${swim}: it is ${takes}.`;
    return [{ code: 'cannot-make', line: item.line, lane: lane.number, message }];
  }
  const left = spanText(floorDivide(rep.rest.num, rep.rest.den));
  const message = `Lane ${lane.number} has only ${left} of rest in ${swim}: it is ${takes}.`;
  return [{ code: 'rest-short', line: item.line, lane: lane.number, message }];
}

/** Warns of more swimmers than fit round two lengths: the lead comes back before the last has left. */
function laneFull({ session, lane }: LaneView, { item }: SwimLine, reps: readonly Judged[]): Warning[] {
  const { length, unit } = session.pool;
  const column = lane.swimmers * lane.gap;
  const round = ({ expected, distance }: Judged): Ratio => multiply(expected, ratio(2 * length, 10 * distance));
  const rep = reps.find((judged) => 10 * judged.distance >= 2 * length && compare(ratio(column), round(judged)) > 0);
  if (!rep) return [];
  const twoLengths = poolText(2 * length, unit);
  const lead = spanText(floorDivide(round(rep).num, round(rep).den));
  const message =
    `Lane ${lane.number} is too full to swim in a circle: ${lane.swimmers} swimmers ${spanText(lane.gap)} apart ` +
    `take up ${spanText(column)}, the lead is back after ${twoLengths} in about ${lead}${rep.held ? '' : assumption(lane)}.`;
  return [{ code: 'lane-full', line: item.line, lane: lane.number, message }];
}

function tailLate({ plan, lane, index }: LaneView): Warning[] {
  const tail = tailOf(lane);
  const worst = new Map<number, { readonly rest: Millis; readonly again: Millis }>();
  for (const stretch of plan.stretches) {
    const reps = stretch.lanes[index]?.reps ?? [];
    reps.forEach((rep, place) => {
      const next = reps[place + 1];
      if (!next) return;
      // The interval would be wrong: after its last rep, a timed block goes on until its time is over.
      const again = next.offset - rep.offset;
      const rest = again - rep.expected;
      const known = worst.get(rep.set.line);
      if (tail >= again && (!known || rest < known.rest)) worst.set(rep.set.line, { rest, again });
    });
  }
  return Array.from(worst, ([line, { again }]): Warning => {
    const message =
      `Lane ${lane.number}: the last of ${lane.swimmers} swimmers ${spanText(lane.gap)} apart leaves ${spanText(tail)} ` +
      `after the lead, who is to leave again after ${spanText(again)}.`;
    return { code: 'tail-late', line, lane: lane.number, message };
  });
}

/** Goes through all that the lane swims, in order. Nobody knows where a swim by time ends, so it counts for nothing. */
function farEnds({ plan, session, lane, index }: LaneView, lines: readonly SwimLine[]): Warning[] {
  const lengthsOf = lengthsBy(lines, session, index);
  const reps: Rep[] = [];
  for (const stretch of plan.stretches) {
    for (const rep of stretch.lanes[index]?.reps ?? []) reps.push(rep);
  }
  const found = new Map<number, Warning>();
  let lengths = 0;
  reps.forEach((rep, place) => {
    lengths += lengthsOf(rep);
    const next = reps[place + 1];
    const { line, kind } = rep.set;
    if (!next || next.set === rep.set || kind === 'timed-swim' || lengths % 2 === 0 || found.has(line)) return;
    const message = `Lane ${lane.number} ends this set at the far end, away from the screen (${count(lengths, 'length')} so far).`;
    found.set(line, { code: 'far-end', line, lane: lane.number, message });
  });
  return Array.from(found.values());
}

/** Gives a function for the lengths of a planned rep. The reps of an untimed set are rounded one by one. */
function lengthsBy(lines: readonly SwimLine[], session: Session, index: number): (rep: Rep) => number {
  const pool = session.pool.length;
  const untimed = new Map<number, number>();
  for (const { item, distances, times } of lines) {
    const lengths = distances[index]!.reduce((sum, distance) => sum + roundedLengths(distance, pool), 0);
    untimed.set(item.line, times[index]! * lengths);
  }
  return ({ set, distance }) => (set.untimed ? untimed.get(set.line)! : roundedLengths(distance, pool));
}

/** Warns at the first line whose times come from an assumed base. */
function assumedBase({ lane, index }: LaneView, lines: readonly SwimLine[]): Warning[] {
  if (lane.baseFrom !== 'assumed') return [];
  const first = lines.find((line) => restsOnBase(line, index));
  if (!first) return [];
  const message = `Lane ${lane.number} has neither base nor css: its times rest on an assumed base of ${reading(ASSUMED_BASE)}.`;
  return [{ code: 'assumed-base', line: first.item.line, lane: lane.number, message }];
}

function restsOnBase({ item, swims }: SwimLine, index: number): boolean {
  if (item.kind === 'timed-swim') return false;
  const ways = (item.kind === 'set' && item.ways) || [item];
  return ways.slice(0, swims[index]!.length).some(({ timing, hold }) => {
    if (timing.kind === 'interval') return timing.lanes[index]!.kind === 'base';
    // A rest, or the length of an untimed set, is worked out from the target if there is one.
    return hold === null;
  });
}

function assumption(lane: Lane): string {
  return lane.baseFrom === 'assumed' ? ` (base ${reading(ASSUMED_BASE)} assumed)` : '';
}
