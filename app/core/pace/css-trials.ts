/*
 * Critical swim speed from trials at full effort: the slope of distance over time. Two trials, a 400 and a 200, are
 * the usual test. Sources: Wakayoshi and others 1992 and 1993. It is an estimate and is said to be one.
 */

import { LEAST_PACE, MOST_PACE } from '../session/line/lane-line.ts';
import { MINUTE, SECOND, type Millis, type Tenths } from '../units.ts';

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
    return {
      ok: false,
      why: 'A CSS test needs two trials or more, each of a distance of its own, as a 400 and a 200.',
    };
  }
  if (pairs.some(({ shorter, longer }) => longer.time <= shorter.time)) {
    return { ok: false, why: 'The longer trial took no longer than the shorter one: check the times.' };
  }
  const css = Math.round(1000 / slopeOf(rising));
  if (css < LEAST_PACE || css > MOST_PACE) {
    return { ok: false, why: 'That comes to no pace from 0:20 to 10:00 per 100: check distances and times.' };
  }
  const isFaster = pairs.some(
    ({ shorter, longer }) => shorter.distance * longer.time <= longer.distance * shorter.time,
  );
  return { ok: true, css, caution: isFaster ? FASTER : null };
}

const FASTER =
  'The longer trial was swum at least as fast as the shorter one, so that was not at full effort: test again.';

/** `4:45.4`, `3:40.07`, `31.0`: the time of a trial, to hundredths as watches have them; null for anything else. */
export function trialTime(text: string): Millis | null {
  const found = /^(?:(\d{1,2}):([0-5]\d)|(\d{1,2}))(?:[.,](\d{1,2}))?$/.exec(text.trim());
  if (!found) return null;
  const [, minutes = '', ofMinute, seconds, hundredths = ''] = found;
  const time = Number(minutes) * MINUTE + Number(ofMinute ?? seconds) * SECOND + Number(hundredths.padEnd(2, '0')) * 10;
  return time > 0 ? time : null;
}

/** In tenths a ms. */
function slopeOf(trials: readonly TimeTrial[]): number {
  const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  const time = mean(trials.map((trial) => trial.time));
  const distance = mean(trials.map((trial) => trial.distance));
  const together = trials.map((trial) => (trial.time - time) * (trial.distance - distance));
  const squares = trials.map((trial) => (trial.time - time) ** 2);
  return mean(together) / mean(squares);
}
