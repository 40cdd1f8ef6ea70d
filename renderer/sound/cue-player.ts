/*
 * Schedules the cues of the next two seconds (of a hidden page, of the next minute) on an output, again and again, and takes back what a
 * command has made wrong. Each pass is called from outside.
 */

import { PLAIN_CUES, type CueChoice } from '../../app/core/sound/cue-choice.ts';
import { cuesDue, type Cue } from '../../app/core/sound/cues.ts';
import type { Millis } from '../../app/core/units.ts';
import type { DeckRun } from '../link/store.ts';
import { createSchedule, HARDLY_LATE, type DueSound, type SoundOutput } from './schedule.ts';
import { voiceOf } from './output/sound-files.ts';

/** How far ahead cues are scheduled, in ms: longer than a covered page's timer sleeps. */
export const HORIZON: Millis = 2000;

/**
 * The same while the page is hidden: Chromium wakes the timers of a hidden page that is silent once a minute. A
 * worker keeps the passes coming (`link/alarms.ts`); where there is none, or it is held back too, nothing is lost.
 */
export const HIDDEN_HORIZON: Millis = 65_000;

/** What the player knows on a pass. */
export interface CuePass {
  /** The page's clock, in ms. */
  readonly now: number;
  /** The run and its t, to fractions of a ms; null where there is none or it is not to be heard. */
  readonly run: (Pick<DeckRun, 'id' | 'state'> & { readonly t: number }) | null;
  readonly choice?: CueChoice;
  readonly pitches?: boolean;
  /** How much later, in ms, the sound is sent than it is due; below 0: earlier. */
  readonly shift?: number;
  /** How far ahead is looked, in ms. */
  readonly horizon?: Millis;
}

export interface ScheduledCue extends Cue, DueSound {
  /** When it is sent so as to be heard, by the page's clock, in ms: the cue's time and the shift. */
  readonly heardAt: number;
}

export interface CuePlayer {
  /** Brings what is scheduled in line with the run. */
  pass(pass: CuePass): void;
  /** Between passes: brings what is scheduled in line with the device's clock. */
  retime(): void;
  /** Takes everything back that has not sounded. */
  silence(): void;
  /** What is scheduled or sounding, by time. */
  scheduled(): readonly ScheduledCue[];
}

/** What the player tells of each cue it schedules or takes back. */
export type CueReport = (what: 'scheduled' | 'cancelled', cue: ScheduledCue) => void;

export function createCuePlayer(output: SoundOutput, report: CueReport): CuePlayer {
  const schedule = createSchedule<ScheduledCue>(output, report);
  let runId: string | null = null;
  return {
    pass({ now, run, choice = PLAIN_CUES, pitches = false, shift = 0, horizon = HORIZON }) {
      if (!run || run.id !== runId) schedule.silence();
      runId = run ? run.id : null;
      if (!run) return;
      const zero = now - run.t + shift;
      // A sound that is sent later than its time is not past with it, and one sent earlier is due sooner.
      const from = Math.floor(run.t - Math.max(0, shift) - HARDLY_LATE);
      const until = Math.floor(run.t + horizon - Math.min(0, shift));
      const due = cuesDue(run.state, from, until, choice).map((cue) => ({
        ...cue,
        voice: voiceOf(cue, pitches),
        heardAt: zero + cue.at,
      }));
      schedule.bring(now, due);
    },
    retime: () => schedule.retime(),
    silence: () => schedule.silence(),
    scheduled: () => schedule.all(),
  };
}
