/*
 * Works out the host's time on a screen from round trips. Each gives an offset and a delay (RFC 5905, section 8). Of
 * the last few, the one with the least delay counts, because delays are mostly in one direction. Small corrections are
 * made gradually, so that the clock on the wall does not visibly jump.
 */

/**
 * One round trip, in ms: the screen's clock when it asked (t1) and when the answer came (t4); host time when the
 * question came (t2) and when the answer was sent (t3). An epoch is a span of host time without a jump; a measurement
 * holds only in its epoch.
 */
export interface SyncSample {
  readonly t1: number;
  readonly t2: number;
  readonly t3: number;
  readonly t4: number;
  readonly epoch: string;
}

export interface Sync {
  readonly epoch: string | null;
  /** How many samples of this epoch were used. */
  readonly used: number;
  /** Oldest first. */
  readonly window: readonly Measured[];
  /** Host time minus screen time: it was `offset` at the screen's time `from`, and moves towards `aim` from then on. */
  readonly course: { readonly from: number; readonly offset: number; readonly aim: number } | null;
}

/** The result of a round trip: host time minus screen time, and the delay. The error is at most half the delay. */
export interface Measured {
  readonly offset: number;
  readonly delay: number;
  /** The screen's clock when the answer came. */
  readonly at: number;
}

/** The most samples kept, and their greatest age in ms. Older ones are worse, because the two clocks drift apart. */
const WINDOW = 16;
const OLDEST = 60_000;

/** A round trip longer than twice the best plus this, in ms, was held up on its way and does not count. */
const HELD_UP = 5;

/** Small corrections change the clock's rate by 5 ms a second; nobody sees 1 in 200. */
const SLEW = 5 / 1000;

/** An error of this size or more is corrected at once, in ms: three frames of a screen. */
const STEP = 60;

/** The samples of the first burst of pings, which find the time: they are followed at once. */
const FIRST_BURST = 8;

/** Nothing measured yet. */
export function emptySync(): Sync {
  return { epoch: null, used: 0, window: [], course: null };
}

/**
 * Adds a round trip. One of another epoch starts again from nothing. One that is impossible (an answer before its
 * question), not later than the last, or held up is dropped.
 */
export function addSample(sync: Sync, sample: SyncSample): Sync {
  const { t1, t2, t3, t4, epoch } = sample;
  const before = sync.epoch === epoch ? sync : emptySync();
  const last = before.window[before.window.length - 1];
  const isPossible = [t1, t2, t3, t4].every(isFinite) && t4 >= t1 && t3 >= t2;
  if (!isPossible || (last && t4 <= last.at)) return sync;

  const measured = measure(sample);
  const recent = before.window.filter(({ at }) => t4 - at <= OLDEST);
  const best = leastDelay(recent);
  if (best && measured.delay > 2 * best.delay + HELD_UP) return { ...before, window: recent };
  const window = [...recent, measured].slice(-WINDOW);
  const used = before.used + 1;
  return { epoch, used, window, course: courseTo(leastDelay(window)!.offset, before, t4) };
}

/** Host time at a time of the screen's clock, not before the last sample; null before the first. */
export function hostTimeAt({ course }: Sync, localNow: number): number | null {
  return course && localNow + offsetOn(course, localNow);
}

/** Offset and delay of one round trip. If the two clocks run at different rates, a delay can be negative: it counts as 0. */
export function measure({ t1, t2, t3, t4 }: Omit<SyncSample, 'epoch'>): Measured {
  return { offset: (t2 - t1 + (t3 - t4)) / 2, delay: Math.max(0, t4 - t1 - (t3 - t2)), at: t4 };
}

/** The sample with the least delay; the latest, if several have it; undefined if there is none. */
export function leastDelay(window: readonly Measured[]): Measured | undefined {
  return window.reduce<Measured | undefined>(
    (best, measured) => (best && best.delay < measured.delay ? best : measured),
    undefined,
  );
}

/** The course from the offset shown at `now` to a better one: gradually if the error is small, else at once. */
function courseTo(aim: number, { used, course }: Sync, now: number): Sync['course'] {
  if (!course) return { from: now, offset: aim, aim };
  const offset = offsetOn(course, now);
  const atOnce = used < FIRST_BURST || Math.abs(aim - offset) >= STEP;
  return { from: now, offset: atOnce ? aim : offset, aim };
}

function offsetOn({ from, offset, aim }: NonNullable<Sync['course']>, now: number): number {
  const most = Math.max(0, now - from) * SLEW;
  return offset + Math.max(-most, Math.min(most, aim - offset));
}
