/*
 * Which sounds are due when: a tone for each leave, and three soft pips ahead of a leave that everyone
 * makes together. The player asks for the next two seconds again and again; the same cue has the same
 * key each time, so that it can tell what is scheduled already and what is no longer due.
 */

import type { Millis } from '../units.ts';
import { SECOND } from '../units.ts';
import { leavesOf } from '../run/record.ts';
import { settle } from '../run/settle.ts';
import { isPending, type RunState } from '../run/state.ts';

export interface Cue {
  /** When it sounds, in ms since the run was opened. */
  readonly at: Millis;
  readonly kind: 'leave' | 'pip';
  /** The lanes that leave with it, by rising number; for a pip those that it counts in. */
  readonly lanes: readonly number[];
  /** Names it among all cues of the run; stays the same while lanes join or drop out. */
  readonly key: string;
}

/** Seconds before the leave at which pips sound. */
const PIPS = [3, 2, 1];

/** A pip within this of a tone would be taken for a part of it. */
const APART: Millis = SECOND / 2;

/**
 * The cues with from <= at < until, by time, were nothing more commanded. `from` lies not before the
 * last command; the state need not be settled. Lanes that leave together sound once, stopped ones not.
 */
export function cuesDue(state: RunState, from: Millis, until: Millis): readonly Cue[] {
  const countedTo = until + PIPS[0]! * SECOND;
  const ahead = settle(state, countedTo);
  const tones = tonesOf(ahead, from - APART);
  const cues: Cue[] = [];
  for (const { at, lanes } of tones) {
    if (at > countedTo) continue;
    cues.push({ at, kind: 'leave', lanes, key: `leave ${at}` });
    if (at > from && countsIn(settle(state, at), at, lanes)) cues.push(...pipsBefore(at, lanes, tones));
  }
  return cues.filter(({ at }) => at >= from && at < until).sort((a, b) => a.at - b.at);
}

interface Tone {
  readonly at: Millis;
  readonly lanes: readonly number[];
}

/** The leaves from a time on, those of one time together. */
function tonesOf(state: RunState, from: Millis): readonly Tone[] {
  const byTime = new Map<Millis, number[]>();
  for (const { at, lane } of leavesOf(state, from - 1)) {
    const lanes = byTime.get(at);
    if (lanes) lanes.push(lane);
    else byTime.set(at, [lane]);
  }
  return [...byTime].map(([at, lanes]) => ({ at, lanes }));
}

/**
 * Whether a leave is counted in: everyone who is to leave at all leaves at that time, and nobody has
 * left before it since the stretch started or lanes were resumed. `state` is settled at that time.
 */
function countsIn(state: RunState, at: Millis, lanes: readonly number[]): boolean {
  if (state.t0 === null || state.phase !== 'going') return false;
  const together = state.lanes.every(
    (lane) => !lane.takesPart || lane.stoppedBy !== null || !isPending(lane) || lanes.includes(lane.number),
  );
  if (!together) return false;
  const first = (since: Millis): boolean => leavesOf(state, since).every((leave) => leave.at >= at);
  return first(state.t0 - 1) || resumedAt(state).some(first);
}

/** When lanes were resumed, as far back as the run remembers commands. */
function resumedAt(state: RunState): readonly Millis[] {
  return state.undoable.filter(({ command }) => command.do === 'resume').map(({ at }) => at);
}

/** All three or none: a count with a pip missing would be counted wrongly. */
function pipsBefore(leave: Millis, lanes: readonly number[], tones: readonly Tone[]): readonly Cue[] {
  const times = PIPS.map((seconds) => leave - seconds * SECOND);
  const covered = times.some((pip) => tones.some((tone) => Math.abs(tone.at - pip) <= APART));
  return covered ? [] : times.map((at) => ({ at, kind: 'pip', lanes, key: `pip ${at}` }));
}
