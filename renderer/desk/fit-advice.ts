/*
 * What the cuts are good for, in one line above them; nothing where the hour is kept.
 */

import type { Fit } from '../../app/core/run/fit.ts';

export function adviceOf({ over, cuts, serves }: Fit): string {
  if (over <= 0) return '';
  if (cuts.length === 0) return 'No cut brings the end forward: shorten the last part, or move on.';
  if (serves === 'each') return 'Any one of these brings it back:';
  return serves === 'all' ? 'These together bring it back:' : 'These bring it nearest:';
}
