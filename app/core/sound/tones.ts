/*
 * The tones of a run: one for each leave and, if wanted, a softer one for each swimmer behind the lead. Tones at the
 * same time are one tone.
 */

import type { Millis } from '../units.ts';
import { leavesOf, type Leave } from '../run/record.ts';
import { settle } from '../run/settle.ts';
import { departedHere, firstOf, isPending, type RunState } from '../run/state.ts';
import type { CueChoice } from './cue-choice.ts';

export interface Tone {
  readonly at: Millis;
  readonly kind: 'leave' | 'follow';
  /** Lane numbers, lowest first. */
  readonly lanes: readonly number[];
}

/** The longest tail: the twentieth swimmer, at a gap of a minute. */
const LONGEST_TAIL: Millis = 19 * 60_000;

/**
 * The tones with from <= at <= until, in order of time, if no more commands are given. A swimmer who follows at the time
 * of another lane's leave has no tone of their own.
 */
export function tonesOf(state: RunState, from: Millis, until: Millis, choice: CueChoice): readonly Tone[] {
  const isHeard = ({ lane }: Leave): boolean => !choice.muted.includes(lane);
  const ahead = settle(state, until);
  const since = choice.followers ? from - LONGEST_TAIL : from;
  const leaves = leavesOf(ahead, since - 1).filter((leave) => leave.at <= until && isHeard(leave));
  const tones = new Map<Millis, Tone>();
  for (const { at, lane } of leaves) if (at >= from) add(tones, at, 'leave', lane);
  if (choice.followers) {
    for (const leave of leaves) {
      for (const at of followers(leave, from, until)) {
        if (tones.get(at)?.kind !== 'leave' && isFollowedAloud(settle(state, at), leave)) {
          add(tones, at, 'follow', leave.lane);
        }
      }
    }
  }
  return [...tones.values()].sort((a, b) => a.at - b.at);
}

function add(tones: Map<Millis, Tone>, at: Millis, kind: Tone['kind'], lane: number): void {
  const lanes = (tones.get(at)?.lanes ?? []).filter((other) => other !== lane);
  tones.set(at, { at, kind, lanes: [...lanes, lane].sort((a, b) => a - b) });
}

/** R2: the times within the span at which the swimmers behind the lead leave. */
function followers({ at, swimmers, gap }: Leave, from: Millis, until: Millis): readonly Millis[] {
  const times: Millis[] = [];
  for (let place = 1; place < swimmers; place++) {
    const time = at + place * gap;
    if (time >= from && time <= until) times.push(time);
  }
  return times;
}

/**
 * Whether the swimmers behind a lead have tones. They follow their lead whatever is commanded, but silently once the
 * coach has stopped their lane or everything that is pending, or has left their stretch.
 */
function isFollowedAloud(then: RunState, leave: Leave): boolean {
  const lane = then.lanes.find(({ number }) => number === leave.lane);
  if (!lane?.takesPart || lane.stoppedBy !== null || then.phase !== 'going') return false;
  if (!departedHere(then).some((left) => left.lane === leave.lane && firstOf(left) <= leave.at)) return false;
  const pending = then.lanes.filter(isPending);
  return pending.length === 0 || pending.some(({ stoppedBy }) => stoppedBy === null);
}
