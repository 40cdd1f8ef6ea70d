/*
 * Sessions built by hand, field by field, so that the plan is tested without the parser: each
 * function gives one piece with plain values in seconds and whole metres.
 */

import { makePlan } from '../../../app/core/plan/make-plan.ts';
import type { Plan } from '../../../app/core/plan/plan.ts';
import type {
  Hold,
  Interval,
  Item,
  Lane,
  Part,
  Pause,
  Rounds,
  Session,
  SwimSet,
  TimedBlock,
  TimedSwim,
  Timing,
} from '../../../app/core/session/session.ts';

/** Whole milliseconds, and tenths of a metre: 32.7 x 1000 is a little more than 32 700. */
const ms = (seconds: number): number => Math.round(seconds * 1000);
const tenths = (metres: number): number => Math.round(metres * 10);

/** One value for all lanes, or one a lane. */
type Each<Value> = Value | readonly Value[];

export function lane(number: number, given: Partial<Lane> = {}): Lane {
  const base = { number, base: ms(90), baseFrom: 'written', css: null } as const;
  return { ...base, swimmers: 1, names: [], gap: ms(5), ownGap: false, ...given };
}

/** Parts stand as given, or all items in one part called "Session". */
export function session(content: readonly Part[] | readonly Item[], given: Partial<Session> = {}): Session {
  const parts = content.every((entry): entry is Part => 'items' in entry && !('kind' in entry))
    ? content
    : [{ name: 'Session', line: null, items: content as readonly Item[] }];
  return {
    title: null,
    pool: { length: 2500, unit: 'm' },
    startsAt: null,
    finishBy: null,
    finishLine: null,
    between: { time: ms(60), auto: false },
    startOn: ms(5),
    grid: ms(5),
    gap: ms(5),
    lanes: [lane(1)],
    parts,
    notes: [],
    ...given,
  };
}

export function planOf(content: readonly Part[] | readonly Item[], given: Partial<Session> = {}): Plan {
  return makePlan(session(content, given), { text: '', lanesText: null });
}

export function part(name: string, line: number | null, ...items: readonly Item[]): Part {
  return { name, line, items };
}

interface Given {
  readonly words?: string;
  readonly timing?: Timing;
  readonly hold?: readonly Hold[];
  /** How many lanes a single value is spread to. */
  readonly lanes?: number;
}

/** `count x distance`; `timing` from `on`, `base`, `rest` below, untimed without one. */
export function set(line: number, count: Each<number>, metres: Each<number>, given: Given = {}): SwimSet {
  const reps = {
    kind: 'repeat',
    counts: spread(count, given.lanes),
    distances: spread(metres, given.lanes).map(tenths),
    listed: Array.isArray(metres),
  } as const;
  const timing = given.timing ?? { kind: 'untimed' };
  return { kind: 'set', line, column: 1, lanes: null, reps, ...rest(given), timing, ways: null };
}

export function ladder(line: number, metres: readonly number[], given: Given = {}): SwimSet {
  const reps = { kind: 'ladder', distances: metres.map(tenths) } as const;
  const timing = given.timing ?? { kind: 'untimed' };
  return { kind: 'set', line, column: 1, lanes: null, reps, ...rest(given), timing, ways: null };
}

export function block(
  line: number,
  seconds: number,
  metres: Each<number>,
  timing: TimedBlock['timing'],
  given: Given = {},
): TimedBlock {
  const distances = spread(metres, given.lanes).map(tenths);
  return {
    kind: 'block',
    line,
    column: 1,
    lanes: null,
    time: ms(seconds),
    distances,
    listed: Array.isArray(metres),
    ...rest(given),
    timing,
  };
}

export function timedSwim(line: number, seconds: number, words = ''): TimedSwim {
  return { kind: 'timed-swim', line, column: 1, lanes: null, time: ms(seconds), words };
}

export function rounds(line: number, times: number, ...items: readonly Item[]): Rounds {
  return { kind: 'rounds', line, column: 1, times, items };
}

export function pause(kind: 'talk' | 'break', line: number, seconds: number, words = ''): Pause {
  return { kind, line, column: 1, time: ms(seconds), words };
}

/** Written intervals, one a lane, with `drop` (negative) or `add` seconds a rep. */
export function on(seconds: Each<number>, step = 0, lanes = 1): TimedBlock['timing'] {
  const intervals = spread(seconds, lanes).map((time): Interval => ({ kind: 'time', time: ms(time) }));
  return { kind: 'interval', lanes: intervals, step: ms(step) };
}

/** Intervals by base, so many seconds more. */
export function base(plus = 0, lanes = 1): TimedBlock['timing'] {
  return { kind: 'interval', lanes: spread(plus, lanes).map((more) => ({ kind: 'base', plus: ms(more) })), step: 0 };
}

export function restOf(seconds: Each<number>, lanes = 1): TimedBlock['timing'] {
  return { kind: 'rest', lanes: spread(seconds, lanes).map((time) => ms(time)) };
}

export function holdTime(seconds: Each<number>, lanes = 1): readonly Hold[] {
  return spread(seconds, lanes).map((time) => ({ kind: 'time', time: ms(time) }));
}

export function holdCss(plus = 0, lanes = 1): readonly Hold[] {
  return spread(plus, lanes).map((more) => ({ kind: 'css', plus: ms(more) }));
}

function rest(given: Given): { words: string; hold: readonly Hold[] | null } {
  return { words: given.words ?? '', hold: given.hold ?? null };
}

function spread<Value>(value: Each<Value>, lanes = 1): readonly Value[] {
  return Array.isArray(value) ? (value as readonly Value[]) : new Array<Value>(lanes).fill(value as Value);
}
