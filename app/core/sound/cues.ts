/*
 * Which sounds are due when, worked out from the run. The player asks again and again for the next two seconds. A cue
 * has the same key each time, so the player can tell what is already scheduled and what is no longer due.
 */

import type { Millis } from '../units.ts';
import type { RunState } from '../run/state.ts';
import { PLAIN_CUES, type CueChoice } from './cue-choice.ts';
import { CLEAR, COUNT, pipsBefore } from './pips.ts';
import { signOf } from './signs.ts';
import { tonesOf } from './tones.ts';

export interface Cue {
  /** When it sounds, in ms since the run was opened. */
  readonly at: Millis;
  /**
   * `leave`: a lane's lead leaves; `follow`: a swimmer behind the lead leaves; `pip`: counts a leave in; `stop` and
   * `resume`: the coach has stopped lanes, or they go on.
   */
  readonly kind: 'leave' | 'follow' | 'pip' | 'stop' | 'resume';
  /** The numbers of the lanes it is for, lowest first; for a pip, those that it counts in. */
  readonly lanes: readonly number[];
  /** Names the cue among all cues of the run; it stays the same when lanes are added or dropped. */
  readonly key: string;
}

/**
 * The cues with from <= at < until, in order of time, if no more commands are given. The state need not be settled.
 * Lanes that leave together have one sound; stopped and muted lanes have none.
 */
export function cuesDue(state: RunState, from: Millis, until: Millis, choice: CueChoice = PLAIN_CUES): readonly Cue[] {
  const tones = tonesOf(state, from - CLEAR, until + COUNT, choice);
  const cues: Cue[] = [];
  for (const tone of tones) {
    const { at, kind, lanes } = tone;
    // All times stay in order: a count begins only after the tone before it.
    for (const pip of at > from ? pipsBefore(state, tone, tones, choice) : []) {
      cues.push({ at: pip, kind: 'pip', lanes, key: `pip ${pip}` });
    }
    cues.push({ at, kind, lanes, key: `${kind} ${at}` });
  }
  const sign = signOf(
    state,
    cues.map(({ at }) => at),
    choice,
  );
  if (sign) cues.push({ at: sign.at, kind: sign.kind, lanes: sign.lanes, key: `${sign.kind} ${sign.given}` });
  return cues.filter(({ at }) => at >= from && at < until).sort((a, b) => a.at - b.at);
}
