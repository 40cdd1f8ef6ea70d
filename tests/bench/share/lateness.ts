/* How late the host's loop wakes up while it serves screens: every 5 ms, far denser than any session. */

import type { Clock } from '../../../app/host/time/clock.ts';
import { startLoop } from '../../../app/host/time/loop.ts';
import { systemTimers } from '../../../app/host/time/timers.ts';

/** In ms. */
const PERIOD = 5;

/** Ends, and gives how late each wake-up was, in ms, when called. */
export function watchLoop(clock: Clock): () => readonly number[] {
  const late: number[] = [];
  const origin = clock.now();
  let next = 1;
  const loop = startLoop(clock, systemTimers, [
    {
      due: (from) => origin + Math.max(next, Math.ceil((from - origin) / PERIOD)) * PERIOD,
      take: ({ to }) => {
        const now = clock.now();
        while (origin + next * PERIOD < to) late.push(now - (origin + next++ * PERIOD));
      },
    },
  ]);
  return () => {
    loop.stop();
    return late;
  };
}
