/*
 * A number among a line's words that reads like a distance of its own (`300 swim 200 kick`): it is not swum.
 */

import { isWholeLengths } from '../../lengths.ts';
import type { Hundredths, Tenths } from '../../units.ts';

/** Smaller numbers are mostly counts, paces and heart rates of tens. */
const LEAST: Tenths = 500;

const NUMBER = /(?<![\p{L}\p{N}.,:'’-])(\d+(?:\.\d)?)\s*(?:m|yd|y)?(?![\p{L}\p{N}]|[.:]\d)/giu;
/** Words behind which a number says how, not how far. */
const SAYS_HOW = /(?<![\p{L}\p{N}-])(?:by|as|of|in|at|to|every|each|first|last|hr)\s*$/iu;
const AS = /(?<![\p{L}\p{N}-])as(?![\p{L}\p{N}-])/iu;
const RATE = /^\s*(?:%|pace(?![\p{L}\p{N}-]))/iu;

/** The first such distance, 50 or more and a whole number of lengths; null where there is none. */
export function distanceAmong(words: string, pool: Hundredths): Tenths | null {
  NUMBER.lastIndex = 0;
  for (let found = NUMBER.exec(words); found; found = NUMBER.exec(words)) {
    const distance = Math.round(Number(found[1]) * 10);
    const before = words.slice(0, found.index);
    const behind = words.slice(found.index + found[0].length);
    // `400 as 100 kick 300 swim` tells how the 400 is made up.
    if (AS.test(before)) return null;
    if (SAYS_HOW.test(before) || RATE.test(behind)) continue;
    if (distance >= LEAST && isWholeLengths(distance, pool)) return distance;
  }
  return null;
}
