/*
 * Schedules the cues of the next two seconds on an output, again and again, and takes back what a
 * command has made wrong. It plays nothing itself and owns no timer: each pass is called from outside.
 */

import { cuesDue, type Cue } from '../../app/core/sound/cues.ts';
import type { RunState } from '../../app/core/run/state.ts';
import type { Millis } from '../../app/core/units.ts';

/** How far ahead cues are scheduled, in ms: longer than a covered page's timer sleeps. */
export const HORIZON: Millis = 2000;

/** A cue whose time has moved by more than this against the page's clock is scheduled anew, in ms. */
const MOVED = 5;

/** Where cues are played; times are of the page's clock, in ms. */
export interface CueOutput {
  /** Schedules a sound to be heard at a time; returns what takes it back. */
  schedule(kind: Cue['kind'], heardAt: number): () => void;
}

/** What the player knows on a pass. */
export interface CuePass {
  /** The page's clock, in ms. */
  readonly now: number;
  /** The run and its t; null where there is none or it is not to be heard. */
  readonly run: { readonly id: string; readonly state: RunState; readonly t: Millis } | null;
}

export interface ScheduledCue extends Cue {
  /** By the page's clock, in ms. */
  readonly heardAt: number;
}

export interface CuePlayer {
  /** Brings what is scheduled in line with the run. */
  pass(pass: CuePass): void;
  /** Takes everything back that has not sounded. */
  silence(): void;
  /** What is scheduled or sounding, by time. */
  scheduled(): readonly ScheduledCue[];
}

/** What the player tells of each cue it schedules or takes back. */
export type CueReport = (what: 'scheduled' | 'cancelled', cue: ScheduledCue) => void;

export function createCuePlayer(output: CueOutput, report: CueReport): CuePlayer {
  const entries = new Map<string, { cue: ScheduledCue; cancel: () => void }>();
  let runId: string | null = null;

  function drop(key: string): void {
    const entry = entries.get(key);
    if (!entry) return;
    entries.delete(key);
    entry.cancel();
    report('cancelled', entry.cue);
  }

  function silence(): void {
    for (const key of [...entries.keys()]) drop(key);
  }

  return {
    pass({ now, run }) {
      if (!run || run.id !== runId) silence();
      runId = run ? run.id : null;
      if (!run) return;
      const due = new Map(cuesDue(run.state, run.t, run.t + HORIZON).map((cue) => [cue.key, cue]));
      const zero = now - run.t;
      for (const [key, { cue }] of entries) {
        if (cue.heardAt <= now) entries.delete(key);
        else if (!due.has(key) || Math.abs(zero + cue.at - cue.heardAt) > MOVED) drop(key);
      }
      for (const [key, cue] of due) {
        if (entries.has(key) || zero + cue.at <= now) continue;
        const scheduled = { ...cue, heardAt: zero + cue.at };
        entries.set(key, { cue: scheduled, cancel: output.schedule(cue.kind, scheduled.heardAt) });
        report('scheduled', scheduled);
      }
    },
    silence,
    scheduled: () => [...entries.values()].map(({ cue }) => cue).sort((a, b) => a.at - b.at),
  };
}
