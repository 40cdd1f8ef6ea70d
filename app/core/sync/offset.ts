/*
 * Works out the host's time on a screen from round trips. Each gives an offset and a delay (RFC 5905, section 8), and
 * a bound: the offset is wrong by at most half the delay, and by what the two clocks drift apart afterwards. Of a
 * quarter of an hour the sample of the least bound counts. Corrections are made gradually, so that the clock on the
 * wall does not visibly jump.
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
  /** The first counts; the others are those that may come to count when it is too old. Oldest first. */
  readonly samples: readonly Measured[];
  /** Those that contradict the one that counts, and not each other. Oldest first. */
  readonly dissent: readonly Measured[];
  /** The screen's clock at the last sample. */
  readonly lastAt: number;
  /** Host time minus screen time: it was `offset` at the screen's time `from`, and moves towards `aim` from then on. */
  readonly course: { readonly from: number; readonly offset: number; readonly aim: number } | null;
}

/** The result of a round trip: host time minus screen time, and the delay. */
export interface Measured {
  readonly offset: number;
  readonly delay: number;
  /** The screen's clock when the answer came. */
  readonly at: number;
}

/** How long a sample may count, in ms. */
const OLDEST = 15 * 60_000;

/** How fast two clocks drift apart at most: quartz keeps time to 50 millionths. */
const DRIFT = 50e-6;

/** In ms: as much as a browser rounds its clock off by. */
const GRAIN = 1;

/** So many samples that contradict the one that counts, and not each other, are believed in its place. */
const AGREEING = 3;

/** A correction changes the clock's rate by 5 ms a second, and nobody sees 1 in 200; a large one is made within so many ms. */
const SLEW = 5 / 1000;
const SLEWED_WITHIN = 4000;

/** The clock never goes slower or faster than by half. */
const MOST_SLEW = 1 / 2;

/** The samples of the first burst of pings, which find the time: they are followed at once. */
const FIRST_BURST = 8;

/** Nothing measured yet. */
export function emptySync(): Sync {
  return { epoch: null, used: 0, samples: [], dissent: [], lastAt: -Infinity, course: null };
}

/**
 * Adds a round trip. One of another epoch starts again from nothing. One that is impossible (an answer before its
 * question, or one that took the host longer than the whole trip) or not later than the last is dropped.
 */
export function addSample(sync: Sync, sample: SyncSample): Sync {
  const { t4, epoch } = sample;
  const before = sync.epoch === epoch ? sync : emptySync();
  if (!isPossible(sample) || t4 <= before.lastAt) return sync;

  const measured = measure(sample);
  const isRecent = ({ at }: Measured): boolean => t4 - at <= OLDEST;
  const recent = before.samples.filter(isRecent);
  const counting = recent[0];
  const agrees = (other: Measured): boolean => agree(other, measured, t4);
  const dissent = before.dissent.filter((other) => isRecent(other) && agrees(other));
  if (!counting || agrees(counting)) {
    const samples = withSample(recent, measured);
    const course = courseTo(samples[0]!.offset, before, t4);
    return { epoch, used: before.used + 1, samples, dissent, lastAt: t4, course };
  }
  const all = [...dissent, measured];
  if (all.length < AGREEING) return { ...before, samples: recent, dissent: all, lastAt: t4 };
  const samples = all.reduce(withSample, []);
  const aim = samples[0]!.offset;
  return { ...before, samples, dissent: [], lastAt: t4, course: { from: t4, offset: aim, aim } };
}

/** Host time at a time of the screen's clock, not before the last sample; null before the first. */
export function hostTimeAt({ course }: Sync, localNow: number): number | null {
  return course && localNow + offsetOn(course, localNow);
}

/** By how much that host time is wrong at most, in ms; null before the first sample. */
export function errorBoundAt({ samples: [counting], course }: Sync, localNow: number): number | null {
  if (!counting || !course) return null;
  return Math.abs(offsetOn(course, localNow) - counting.offset) + boundOf(counting, localNow) + GRAIN;
}

/** Offset and delay of one round trip. If the two clocks run at different rates, a delay can be negative: it counts as 0. */
export function measure({ t1, t2, t3, t4 }: Omit<SyncSample, 'epoch'>): Measured {
  return { offset: (t2 - t1 + (t3 - t4)) / 2, delay: Math.max(0, t4 - t1 - (t3 - t2)), at: t4 };
}

/** By how much a sample's offset is wrong at most, at a time of the screen's clock; in ms. */
export function boundOf({ delay, at }: Measured, localNow: number): number {
  return delay / 2 + DRIFT * (localNow - at);
}

function isPossible({ t1, t2, t3, t4 }: SyncSample): boolean {
  if (![t1, t2, t3, t4].every(isFinite) || t4 < t1 || t3 < t2) return false;
  return t3 - t2 <= t4 - t1 + 2 * (GRAIN + DRIFT * (t4 - t1));
}

/** Whether two samples can both be true. */
function agree(one: Measured, other: Measured, now: number): boolean {
  return Math.abs(one.offset - other.offset) <= boundOf(one, now) + boundOf(other, now) + 2 * GRAIN;
}

/**
 * All bounds grow alike, so that of two samples the same always has the less: those that are worse than a later one
 * never count. Of equals the later counts.
 */
function withSample(samples: readonly Measured[], measured: Measured): readonly Measured[] {
  const bound = boundOf(measured, measured.at);
  return [...samples.filter((each) => boundOf(each, measured.at) < bound), measured];
}

/** The course from the offset shown at `now` to a better one. */
function courseTo(aim: number, { used, course }: Sync, now: number): Sync['course'] {
  return { from: now, offset: course && used >= FIRST_BURST ? offsetOn(course, now) : aim, aim };
}

function offsetOn({ from, offset, aim }: NonNullable<Sync['course']>, now: number): number {
  const error = aim - offset;
  const rate = Math.min(MOST_SLEW, Math.max(SLEW, Math.abs(error) / SLEWED_WITHIN));
  const most = Math.max(0, now - from) * rate;
  return offset + Math.max(-most, Math.min(most, error));
}
