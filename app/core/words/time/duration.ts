/*
 * How long something takes, with its units, so that nobody reads it as a time of day: "19:45" beside a start would be one.
 */

import type { Millis } from '../../units.ts';
import { secondsLeft } from './reading.ts';

/** "19 min 45 s", "20 min", "1 h 2 min", "45 s"; a second begun counts whole. */
export function durationText(time: Millis): string {
  const seconds = secondsLeft(time);
  if (seconds === 0) return '0 s';
  const minutes = Math.floor(seconds / 60);
  const texts = [counted(Math.floor(minutes / 60), 'h'), counted(minutes % 60, 'min'), counted(seconds % 60, 's')];
  return texts.filter((text) => text !== '').join(' ');
}

function counted(count: number, unit: string): string {
  return count === 0 ? '' : `${count} ${unit}`;
}
