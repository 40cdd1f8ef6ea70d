/*
 * The two notes for lanes that the coach has stopped, and the two for lanes that go on.
 */

import type { Millis } from '../units.ts';
import { RULES } from '../run/command/commands.ts';
import type { RunState, Undoable } from '../run/state.ts';
import type { CueChoice } from './cue-choice.ts';
import { APART } from './pips.ts';

export interface Sign {
  readonly at: Millis;
  readonly kind: 'stop' | 'resume';
  readonly lanes: readonly number[];
  /** The time of its command, used as its name. */
  readonly given: Millis;
}

/** How long after its command a sign sounds, so that every screen has heard of the command in time. */
const AFTER: Millis = 300;

/** Later than this after its command, a sign would only startle people. */
const TOO_LATE: Millis = 2000;

/**
 * The sign of the last command, if that stopped lanes that are heard, or let them go on; else null. It keeps half a
 * second away from every other sound: the tone of a leave that is on its way comes first. sounds: the times of the
 * others, in order.
 */
export function signOf(state: RunState, sounds: readonly Millis[], choice: CueChoice): Sign | null {
  const change = choice.signs ? lastChange(state) : null;
  if (!change) return null;
  const lanes = change.lanes.filter((lane) => !choice.muted.includes(lane));
  if (lanes.length === 0) return null;
  const at = sounds.reduce(
    (time, sound) => (Math.abs(sound - time) < APART ? sound + APART : time),
    change.given + AFTER,
  );
  return at <= change.given + TOO_LATE ? { ...change, at, lanes } : null;
}

type Change = Omit<Sign, 'at'>;

function lastChange(state: RunState): Change | null {
  const last = state.undoable[state.undoable.length - 1];
  if (last) return changeBy(last, state);
  // An undo that was treated as a resume leaves nothing to undo.
  if (state.resumedAt !== state.commandAt) return null;
  const lanes = state.lanes.filter(({ takesPart, stoppedBy }) => takesPart && stoppedBy === null);
  return { kind: 'resume', given: state.resumedAt, lanes: lanes.map(({ number }) => number) };
}

function changeBy({ command, at, before }: Undoable, after: RunState): Change | null {
  const kind = RULES[command.do].sign;
  if (!kind) return null;
  const changed = after.lanes.filter(({ stoppedBy }, index) => {
    const was = before.lanes[index]!.stoppedBy;
    return kind === 'stop' ? stoppedBy !== null && stoppedBy !== was : stoppedBy === null && was !== null;
  });
  return { kind, given: at, lanes: changed.map(({ number }) => number) };
}
