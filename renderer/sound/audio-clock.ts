/*
 * From the page's clock to the audio device's: the two run at slightly different rates, so each cue is
 * mapped anew, shortly before it is due.
 */

/** What is read of an AudioContext. */
export interface AudioTimes {
  readonly currentTime: number;
  readonly outputLatency?: number;
  readonly baseLatency?: number;
  getOutputTimestamp?(): { readonly contextTime?: number; readonly performanceTime?: number };
}

/**
 * The context's time (s) at which a sound must start to be heard when the page's clock shows
 * `heardAt` (ms); `now` is that clock now. The device's own delay is in the mapping.
 */
export function contextTimeFor(audio: AudioTimes, heardAt: number, now: number): number {
  const stamp = audio.getOutputTimestamp?.();
  const { contextTime, performanceTime } = stamp ?? {};
  if (contextTime && performanceTime) return contextTime + (heardAt - performanceTime) / 1000;
  return audio.currentTime + (heardAt - now) / 1000 - (audio.outputLatency ?? audio.baseLatency ?? 0);
}

/** For how long a context that says it runs may stand still before its device counts as gone, in ms. */
const STANDS_STILL = 2000;

export interface Motion {
  /** Looks at the context's time; how it moves. */
  look(currentTime: number, stamped: boolean, now: number): 'moving' | 'starting' | 'still';
}

/** Tells a context that moves from one that only says that it runs. */
export function createMotion(): Motion {
  let lastTime = -1;
  let movedAt: number | null = null;
  let since: number | null = null;
  return {
    look(currentTime, stamped, now) {
      since = since ?? now;
      const moved = lastTime >= 0 && currentTime > lastTime;
      if (moved) movedAt = now;
      lastTime = currentTime;
      if (movedAt === null || (moved && !stamped)) return now - since > STANDS_STILL && !moved ? 'still' : 'starting';
      return now - movedAt > STANDS_STILL ? 'still' : 'moving';
    },
  };
}
