/*
 * Critical swim speed from trials at full effort: the slope of distance over time. Two trials, a 400 and a 200, are
 * the usual test. Sources: Wakayoshi and others 1992 and 1993. It is an estimate and is said to be one.
 */

import type { Millis, Tenths } from '../units.ts';

export interface TimeTrial {
  readonly distance: Tenths;
  readonly time: Millis;
}

export type CssTest =
  | {
      readonly ok: true;
      /** For 100 of the pool's unit, whole ms. */
      readonly css: Millis;
      /** What makes it doubtful, in a sentence; null for nothing. */
      readonly caution: string | null;
    }
  | { readonly ok: false; readonly why: string };

/** At least two trials, of different distances, in any order. By least squares where there are more than two. */
export function cssOf(trials: readonly TimeTrial[]): CssTest {
  const rising = [...trials].sort((a, b) => a.distance - b.distance);
  const pairs = rising.slice(1).map((longer, index) => ({ shorter: rising[index]!, longer }));
  if (pairs.length === 0 || pairs.some(({ shorter, longer }) => shorter.distance === longer.distance)) {
    return { ok: false, why: 'A CSS test needs trials of two distances, as a 400 and a 200.' };
  }
  if (pairs.some(({ shorter, longer }) => longer.time <= shorter.time)) {
    return { ok: false, why: 'The longer trial took no longer than the shorter one: check the times.' };
  }
  const isFaster = pairs.some(
    ({ shorter, longer }) => shorter.distance * longer.time <= longer.distance * shorter.time,
  );
  return { ok: true, css: Math.round(1000 / slopeOf(rising)), caution: isFaster ? FASTER : null };
}

const FASTER =
  'The longer trial was swum at least as fast as the shorter one, so that was not at full effort: test again.';

/** In tenths a ms. */
function slopeOf(trials: readonly TimeTrial[]): number {
  const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  const time = mean(trials.map((trial) => trial.time));
  const distance = mean(trials.map((trial) => trial.distance));
  const together = trials.map((trial) => (trial.time - time) * (trial.distance - distance));
  const squares = trials.map((trial) => (trial.time - time) ** 2);
  return mean(together) / mean(squares);
}
