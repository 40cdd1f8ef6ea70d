/*
 * The two notes that say that the coach has stopped lanes, or that they go on.
 */

import type { Millis } from '../units.ts';
import { RULES } from '../run/commands.ts';
import type { RunState, Undoable } from '../run/state.ts';
import type { CueChoice } from './cue-choice.ts';
import { APART } from './pips.ts';

export interface Sign {
  readonly at: Millis;
  readonly kind: 'stop' | 'resume';
  readonly lanes: readonly number[];
  /** The time of its command, which names it. */
  readonly given: Millis;
}

/** After its command, so that every screen has heard of that in time. */
const AFTER: Millis = 300;

/** Later than this after its command it would only startle. */
const TOO_LATE: Millis = 2000;

/**
 * The sign of the last command, where that stopped lanes that are heard or let them go on; null for
 * none. It keeps half a second from every other sound, whose times (by rising time) are handed in:
 * the tone of a leave that was on its way comes first.
 */
export function signOf(state: RunState, sounds: readonly Millis[], choice: CueChoice): Sign | null {
  const change = choice.signs ? lastChange(state) : null;
  const lanes = change?.lanes.filter((lane) => !choice.muted.includes(lane)) ?? [];
  if (!change || lanes.length === 0) return null;
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
  // An undo that stands for a resume leaves nothing that could be undone.
  if (state.resumedAt === -Infinity || state.resumedAt !== state.commandAt) return null;
  const lanes = state.lanes.filter(({ takesPart, stoppedBy }) => takesPart && stoppedBy === null);
  return { kind: 'resume', given: state.resumedAt, lanes: lanes.map(({ number }) => number) };
}

function changeBy({ command, at, before }: Undoable, after: RunState): Change | null {
  const kind = RULES[command.do].sign;
  if (!kind) return null;
  const changed = after.lanes.filter(({ stoppedBy }, index) => {
    const was = before.lanes[index]?.stoppedBy ?? null;
    return kind === 'stop' ? stoppedBy !== null && stoppedBy !== was : stoppedBy === null && was !== null;
  });
  return { kind, given: at, lanes: changed.map(({ number }) => number) };
}
