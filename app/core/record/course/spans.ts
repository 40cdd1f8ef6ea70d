/*
 * When each stretch of a run went on: from its start to its end, as often as it was begun.
 */

import type { Millis } from '../../units.ts';
import { ON_ITS_WAY } from '../../run/align.ts';
import { leavesOf } from '../../run/record.ts';
import { settle, stretchEnd } from '../../run/settle.ts';
import { currentStretch, type RunState } from '../../run/state.ts';

export interface Span {
  readonly part: string;
  readonly partIndex: number;
  readonly from: Millis;
  readonly to: Millis;
}

/** A run at a time, with the stretches that are over by then. */
export interface Course {
  readonly state: RunState;
  readonly spans: readonly Span[];
}

/** The course at t, where nothing is commanded until then. */
export function passed({ state, spans }: Course, t: Millis): Course {
  const over = [...spans];
  let now = state;
  while (now.phase === 'going') {
    const left = settle(now, Math.min(t, lastLeave(now)));
    const end = stretchEnd(left);
    if (end > t) break;
    over.push(spanOf(now, end));
    now = settle(now, end);
  }
  return { state: settle(now, t), spans: over };
}

/** The course as a command at t finds it, with the leaves that are on their way to the loudspeaker. */
export function passedForCommand(course: Course, t: Millis): Course {
  const onTheirWay = leavesOf(settle(course.state, t + ON_ITS_WAY), t);
  return passed(course, onTheirWay.length > 0 ? onTheirWay[onTheirWay.length - 1]!.at : t);
}

/** The spans after a command at t, which `found` the course so and left the run as `state`. */
export function spansAfter(found: Course, state: RunState, t: Millis): readonly Span[] {
  return hasBegun(found.state, t) && !isSameStretch(found.state, state)
    ? [...found.spans, spanOf(found.state, t)]
    : found.spans;
}

/** All spans up to t, that of the stretch which is still going among them. */
export function spansUntil({ state, spans }: Course, t: Millis): readonly Span[] {
  return hasBegun(state, t) ? [...spans, spanOf(state, t)] : spans;
}

/** Whether two states are in the same passage through a stretch, or both in none. */
export function isSameStretch(a: RunState, b: RunState): boolean {
  return a.phase === b.phase && a.t0 === b.t0;
}

function hasBegun({ phase, t0 }: RunState, t: Millis): boolean {
  return phase === 'going' && t0! < t;
}

function spanOf(state: RunState, to: Millis): Span {
  const { part, partIndex } = currentStretch(state);
  return { part, partIndex, from: state.t0!, to };
}

/** The last time at which a rep of any lane is due, after which a stretch that is open waits for a stopped lane; -Infinity for none. */
function lastLeave({ lanes }: RunState): Millis {
  return Math.max(...lanes.map(({ reps, origin }) => origin + (reps[reps.length - 1]?.offset ?? -Infinity)));
}
