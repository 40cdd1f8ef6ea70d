/*
 * A dedicated worker that does nothing but knock, for pages that are hidden.
 */

import { createAlarms, type Alarms, type Knocker } from './alarms.ts';

let alarms: Alarms | null = null;

/** The alarms of this page: one set, and one worker, for all its parts. */
export function pageAlarms(): Alarms {
  alarms =
    alarms ??
    createAlarms({
      now: () => performance.now(),
      after(delay, call) {
        const timer = setTimeout(call, delay);
        return () => clearTimeout(timer);
      },
      isHidden: () => document.visibilityState === 'hidden',
      onHidden: (call) => document.addEventListener('visibilitychange', call),
      openKnocker,
    });
  return alarms;
}

function openKnocker(knock: () => void): Knocker | null {
  try {
    const worker = new Worker(new URL('./knocking-worker.ts', import.meta.url));
    worker.onmessage = knock;
    return { pace: (pace) => worker.postMessage(pace) };
  } catch {
    // No workers here: the page's own timers have to do, and the sound looks further ahead.
    return null;
  }
}
