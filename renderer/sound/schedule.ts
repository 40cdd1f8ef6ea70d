/*
 * Keeps what is scheduled on an output in line with what is due: each sound once, taken back where it is
 * no longer due, moved where a clock was put right. It plays nothing itself and owns no timer.
 */

import type { SoundVoice } from './output/sound-files.ts';

/** A sound that has been given to the output. */
export interface ScheduledSound {
  /** Brings it in line with how the clocks are known to stand now; `heardAt` as in `schedule`. */
  retime(heardAt: number): void;
  /** Takes it back, where it has not been heard. */
  cancel(): void;
  /** Its time is past: what the device has not begun by now is not played late. */
  release(): void;
}

/** One that is not there. */
export const NO_SOUND: ScheduledSound = { retime: () => undefined, cancel: () => undefined, release: () => undefined };

/** Where sounds are played; times are of the page's clock, in ms. */
export interface SoundOutput {
  /** Schedules a sound to be heard at a time. */
  schedule(voice: SoundVoice, heardAt: number): ScheduledSound;
}

export interface DueSound {
  readonly key: string;
  readonly voice: SoundVoice;
  /** By the page's clock, in ms. */
  readonly heardAt: number;
}

/** A sound whose time has moved by more than this, in ms, is a new one; by less it is only put right. */
const MOVED = 5;

/** In ms: a sound that is about to be heard stays in its place where its time is found to be past by no more: else nobody would hear it. */
export const HARDLY_LATE = 50;

export interface Schedule<Due extends DueSound> {
  /** What is due in the time ahead that is looked at; of that, what is past already is not sounded late. */
  bring(now: number, due: readonly Due[]): void;
  /** Brings what is scheduled in line with the device's clock, as it is known now. */
  retime(): void;
  /** Takes everything back that has not sounded. */
  silence(): void;
  /** What is scheduled or sounding, by time. */
  all(): readonly Due[];
}

function hasMoved(now: number, from: number, to: number): boolean {
  return Math.abs(to - from) > (to > now ? MOVED : HARDLY_LATE);
}

/** `report` is told of each sound that is scheduled or taken back. */
export function createSchedule<Due extends DueSound>(
  output: SoundOutput,
  report: (what: 'scheduled' | 'cancelled', due: Due) => void,
): Schedule<Due> {
  const entries = new Map<string, { due: Due; heardAt: number; sound: ScheduledSound }>();

  function drop(key: string): void {
    const entry = entries.get(key);
    if (!entry) return;
    entries.delete(key);
    entry.sound.cancel();
    report('cancelled', entry.due);
  }

  function look(now: number, key: string, due: Due | undefined): void {
    const entry = entries.get(key)!;
    if (entry.due.heardAt <= now) {
      entries.delete(key);
      entry.sound.release();
    } else if (!due || hasMoved(now, entry.due.heardAt, due.heardAt)) drop(key);
    else if (due.heardAt > now) {
      entry.heardAt = due.heardAt;
      entry.sound.retime(due.heardAt);
    }
  }

  return {
    bring(now, due) {
      const byKey = new Map(due.map((each) => [each.key, each]));
      for (const key of [...entries.keys()]) look(now, key, byKey.get(key));
      for (const each of due) {
        if (entries.has(each.key) || each.heardAt <= now) continue;
        const { key, voice, heardAt } = each;
        entries.set(key, { due: each, heardAt, sound: output.schedule(voice, heardAt) });
        report('scheduled', each);
      }
    },
    retime() {
      for (const { heardAt, sound } of entries.values()) sound.retime(heardAt);
    },
    silence() {
      for (const key of [...entries.keys()]) drop(key);
    },
    all: () => [...entries.values()].map(({ due }) => due).sort((a, b) => a.heardAt - b.heardAt),
  };
}
