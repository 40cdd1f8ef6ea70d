/*
 * The host's time on a screen, from round trips: offset and delay of each as RFC 5905 (section 8) has
 * them, and of a window of them the one with the least delay, because what delays a message mostly
 * delays it one way. Small corrections are slewed in, so that no clock on a wall is seen to jump.
 */

/**
 * One round trip, in ms: the screen's clock when it asked (t1) and when the answer came (t4), host time
 * when the question came (t2) and when the answer was sent (t3). An epoch is a stretch of host time
 * without a jump; what was measured in one means nothing in another.
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
  /** Host time minus the screen's: `offset` held at the screen's time `from`, and moves to `aim` from there. */
  readonly course: { readonly from: number; readonly offset: number; readonly aim: number } | null;
}

/** What a round trip says: host time minus the screen's, and how long it was under way. Right to half the delay. */
export interface Measured {
  readonly offset: number;
  readonly delay: number;
  /** The screen's clock when the answer came. */
  readonly at: number;
}

/** As many samples, and as old, in ms: beyond that the clocks' rates differ by more than a better sample gains. */
const WINDOW = 16;
const OLDEST = 60_000;

/** A round trip longer than twice the best and this, in ms, was held up on its way: it says nothing. */
const HELD_UP = 5;

/** ms a second by which small corrections are made; nobody sees 1 in 200. */
const SLEW = 5 / 1000;

/** An error from which it is better to be right at once, in ms: three frames of a screen. */
const STEP = 60;

/** The first burst of pings finds the time, and is followed at once. */
const FIRST_BURST = 8;

/** Nothing measured yet. */
export function emptySync(): Sync {
  return { epoch: null, used: 0, window: [], course: null };
}

/**
 * Takes in a round trip. One of another epoch begins anew. One that cannot be (an answer before the
 * question), is no later than the last, or was held up, is dropped.
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

/** Offset and delay of one round trip. Clocks of unlike rates can make the delay of a long one negative: taken for 0. */
export function measure({ t1, t2, t3, t4 }: Omit<SyncSample, 'epoch'>): Measured {
  return { offset: (t2 - t1 + (t3 - t4)) / 2, delay: Math.max(0, t4 - t1 - (t3 - t2)), at: t4 };
}

/** The one to go by: the least delay, of equals the latest; undefined of none. */
export function leastDelay(window: readonly Measured[]): Measured | undefined {
  return window.reduce<Measured | undefined>(
    (best, measured) => (best && best.delay < measured.delay ? best : measured),
    undefined,
  );
}

/** From what is shown at `now` to a better offset: by and by where little is wrong, else at once. */
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
