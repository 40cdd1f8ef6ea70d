/*
 * Which sounds are due when, from the run alone. The player asks for the next two seconds again and
 * again; the same cue has the same key each time, so that it can tell what is scheduled already and
 * what is no longer due.
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
   * `leave`: a lane's first swimmer; `follow`: a further one; `pip`: counts a leave in; `stop` and
   * `resume`: the coach has stopped lanes, or they go on.
   */
  readonly kind: 'leave' | 'follow' | 'pip' | 'stop' | 'resume';
  /** The lanes it is for, by rising number; for a pip those that it counts in. */
  readonly lanes: readonly number[];
  /** Names it among all cues of the run; stays the same while lanes join or drop out. */
  readonly key: string;
}

/**
 * The cues with from <= at < until, by time, were nothing more commanded. The state need not be
 * settled. Lanes that leave together sound once; stopped and muted ones do not.
 */
export function cuesDue(state: RunState, from: Millis, until: Millis, choice: CueChoice = PLAIN_CUES): readonly Cue[] {
  const tones = tonesOf(state, from - CLEAR, until + COUNT, choice);
  const cues: Cue[] = [];
  for (const tone of tones) {
    const { at, kind, lanes } = tone;
    // All times rise: a count begins only behind the tone before.
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
