/*
 * A pip each second beside a flash on the screen, to set by eye and ear how much later or earlier the
 * sound has to be sent. Whole seconds of the page's clock are the pulses of both.
 */

import { SECOND } from '../../app/core/units.ts';
import { HORIZON } from './cue-player.ts';
import { createSchedule, type SoundOutput } from './schedule.ts';

export interface SyncPulse {
  /** Schedules the pulses ahead; `shift` and `horizon` as for a cue. */
  pass(now: number, shift: number, horizon?: number): void;
  /** Between passes: brings them in line with the device's clock. */
  retime(): void;
  silence(): void;
}

export function createSyncPulse(output: SoundOutput): SyncPulse {
  const schedule = createSchedule(output, () => undefined);
  return {
    pass(now, shift, horizon = HORIZON) {
      const due = [];
      const first = Math.ceil((now - Math.max(0, shift)) / SECOND) * SECOND;
      for (let at = first; at < now - Math.min(0, shift) + horizon; at += SECOND) {
        due.push({ key: `pulse ${at}`, voice: { file: 'pip', gain: 1 } as const, heardAt: at + shift });
      }
      schedule.bring(now, due);
    },
    retime: () => schedule.retime(),
    silence: () => schedule.silence(),
  };
}

/** For how long of a second the screen is lit, in ms. */
const LIT: number = 200;

/** Whether the screen is lit at a time of the page's clock: once a second, from the beat on. */
export function isLit(now: number): boolean {
  return now % SECOND < LIT;
}
