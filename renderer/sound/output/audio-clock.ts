/*
 * What can be read of an audio context's clock: how far its sound has come to be heard, and whether
 * its time really moves.
 */

/** What is read of an AudioContext. */
export interface AudioTimes {
  readonly currentTime: number;
  readonly outputLatency?: number;
  readonly baseLatency?: number;
  getOutputTimestamp?(): { readonly contextTime?: number; readonly performanceTime?: number };
}

/** What the context's time `contextTime` (s) gives is heard when the page's clock shows `pageTime` (ms). */
export interface Stamp {
  readonly contextTime: number;
  readonly pageTime: number;
}

/** A context that has run for so long, in s, and still has no stamp that can be, will never have one. */
const STAMPLESS = 3;

/** A stamp is of the last few buffers; one that is further from now, in ms, is no stamp. */
const STAMP_AGE = 2000;

/**
 * `now`: the page's clock, in ms. The device's own delay is in the output's stamp; where the browser
 * has none, by the current time less the delay that is known. null while the output has none yet.
 */
export function readStamp(audio: AudioTimes, now: number): Stamp | null {
  const { contextTime, performanceTime } = audio.getOutputTimestamp?.() ?? {};
  if (contextTime && performanceTime && Math.abs(performanceTime - now) < STAMP_AGE) {
    return { contextTime, pageTime: performanceTime };
  }
  if (audio.getOutputTimestamp && audio.currentTime < STAMPLESS) return null;
  return { contextTime: audio.currentTime - (audio.outputLatency ?? audio.baseLatency ?? 0), pageTime: now };
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
