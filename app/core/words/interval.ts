/*
 * A rep's interval and its target.
 */

import type { Rep } from '../plan/plan.ts';
import type { Millis } from '../units.ts';
import { about } from './time/estimate.ts';
import { reading } from './time/reading.ts';

type Timed = Pick<Rep, 'interval' | 'estimated' | 'set'>;

/** "1:35"; "≈1:35" of a rest or an untimed set. */
export function intervalText({ interval, estimated }: Pick<Rep, 'interval' | 'estimated'>): string {
  return `${about(estimated)}${reading(interval)}`;
}

/** "on 1:35", of a swim by time "for 15:00"; '' of an untimed set, which is swum on no interval. */
export function onText(rep: Timed): string {
  if (rep.set.untimed) return '';
  return `${rep.set.kind === 'timed-swim' ? 'for' : 'on'} ${intervalText(rep)}`;
}

/** "hold 0:38"; '' without a target. */
export function holdText(target: Millis | null): string {
  return target === null ? '' : `hold ${reading(target)}`;
}
