/*
 * Times taken by hand, in words: to the tenth, and against a target.
 */

import type { Millis } from '../../units.ts';
import { reading } from './reading.ts';

/** "0:37.8", "1:20.0": always with its tenth, because a hand is no better and no worse. */
export function tenthText(time: Millis): string {
  const text = reading(time);
  return text.includes('.') ? text : `${text}.0`;
}

export function overText(over: Millis): string {
  const tenths = (Math.floor(Math.abs(over) / 100) / 10).toFixed(1);
  return tenths === '0.0' ? 'on target' : `${tenths} s ${over > 0 ? 'over' : 'under'}`;
}

/** Beside a time that nobody swims. */
export const TOO_SOON = 'too soon?';
