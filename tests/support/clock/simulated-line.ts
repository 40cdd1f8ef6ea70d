/*
 * A line between a screen and the host that is not there: what takes how long each way, what is lost, and how the two
 * clocks run. A screen pings over it as a page does, and its idea of host time is held against the truth.
 */

import { addSample, emptySync, errorBoundAt, hostTimeAt, type Sync } from '../../../app/core/sync/offset.ts';

export interface Line {
  /** How long a message takes at a time of the screen's clock, in ms; null for one that is lost. */
  out(at: number): number | null;
  back(at: number): number | null;
  /** By how much the host's clock is faster, as a share: 50e-6 gains 50 µs each second. */
  readonly drift: number;
}

export interface Look {
  /** The screen's clock, in ms after its first ping. */
  readonly at: number;
  /** Host time on the screen less host time, in ms. */
  readonly error: number;
  readonly bound: number;
}

/** The pings of a page: a burst of eight 60 ms apart, then one every two seconds. */
const BURST = { pings: 8, pace: 60 };
const PACE = 2000;

/** What the screen shows before each ping and as often in between, from the first answer on. */
export function looksOver({ out, back, drift }: Line, forMs: number): readonly Look[] {
  const hostOf = (own: number): number => 50_000 + own * (1 + drift);
  const looks: Look[] = [];
  const onTheirWay: { readonly t4: number; readonly add: (sync: Sync) => Sync }[] = [];
  let sync = emptySync();
  for (let at = 0, pings = 0; at < forMs; at += pings < BURST.pings ? BURST.pace : PACE / 4) {
    for (const due of onTheirWay.filter(({ t4 }) => t4 <= at).sort((a, b) => a.t4 - b.t4)) sync = due.add(sync);
    onTheirWay.splice(0, onTheirWay.length, ...onTheirWay.filter(({ t4 }) => t4 > at));
    const shown = hostTimeAt(sync, at);
    if (shown !== null) looks.push({ at, error: shown - hostOf(at), bound: errorBoundAt(sync, at)! });
    if (pings >= BURST.pings && at % PACE >= PACE / 4) continue;
    pings++;
    const there = out(at);
    const home = back(at);
    if (there === null || home === null) continue;
    const came = at + there;
    const sample = { t1: at, t2: hostOf(came), t3: hostOf(came + 0.2), t4: came + 0.2 + home, epoch: 'a' };
    onTheirWay.push({ t4: sample.t4, add: (before) => addSample(before, sample) });
  }
  return looks;
}

/** The value below which a share of them lies, 0 to 1. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
}

/** A linear congruential generator with the constants of Numerical Recipes; 0 up to 1. */
export function lcg(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

/**
 * Wi-Fi: so much jitter each way, in ms, one message in so many lost, the way out longer by so much. Jitter is mostly
 * small and sometimes all of it.
 */
export function wifi(seed: number, { jitter = 20, loss = 0, asymmetry = 0, drift = 30e-6 }): Line {
  const random = lcg(seed);
  const way = (): number | null => (random() < loss ? null : 1 + jitter * random());
  return {
    out: () => {
      const ms = way();
      return ms === null ? null : ms + asymmetry;
    },
    back: way,
    drift,
  };
}
