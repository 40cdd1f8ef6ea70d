/*
 * The times of day at which a session starts and is to be over: on two lines or one, with 24 hours
 * or with am and pm.
 */

import type { Random } from '../invent/random.ts';
import { two } from './write-time.ts';

const HALF_A_DAY = 12 * 60;

export interface ClockLine {
  readonly word: 'start' | 'finish';
  readonly text: string;
  /** The finish stands on it. */
  readonly isFinish: boolean;
}

/** Times in minutes after midnight, null where there is none. */
export function writeStartAndFinish(start: number | null, finish: number | null, random: Random): ClockLine[] {
  if (start !== null && finish !== null && random.chance(0.35))
    return [{ word: 'start', text: writeRange(start, finish, random), isFinish: true }];
  const isHalved = (): boolean => random.chance(0.35);
  let halved = { start: isHalved(), finish: isHalved() };
  // An am or pm on one line would leave open what 12 or less means on the other.
  if (start !== null && finish !== null && halved.start !== halved.finish) {
    const plain = halved.start ? finish : start;
    if (plain < 13 * 60) halved = { start: true, finish: true };
  }
  const lines: ClockLine[] = [];
  if (start !== null) lines.push({ word: 'start', text: writeClock(start, halved.start, random), isFinish: false });
  if (finish !== null) lines.push({ word: 'finish', text: writeClock(finish, halved.finish, random), isFinish: true });
  return lines;
}

function writeRange(start: number, finish: number, random: Random): string {
  const to = random.pick(['-', ' - ', '\u2013', ' to ']);
  const isHalved = random.chance(0.6);
  if (!isHalved) return writeClock(start, false, random) + to + writeClock(finish, false, random);
  const end = writeClock(finish, true, random);
  if (startWithHalfOf(finish, start) === start && random.chance(0.7)) return onTwelve(start, random) + to + end;
  return writeClock(start, true, random) + to + end;
}

/** What a start without am or pm comes to before a finish that has one. */
function startWithHalfOf(finish: number, start: number): number {
  const same = (start % HALF_A_DAY) + (finish < HALF_A_DAY ? 0 : HALF_A_DAY);
  return same < finish ? same : (same + HALF_A_DAY) % (2 * HALF_A_DAY);
}

function writeClock(minutes: number, isHalved: boolean, random: Random): string {
  if (isHalved) {
    const half = minutes < HALF_A_DAY ? random.pick(['am', 'am', 'AM']) : random.pick(['pm', 'pm', 'PM']);
    return `${onTwelve(minutes, random)} ${half}`;
  }
  const hours = Math.floor(minutes / 60);
  return `${random.chance(0.8) ? two(hours) : hours}:${two(minutes % 60)}`;
}

function onTwelve(minutes: number, random: Random): string {
  const hour = Math.floor(minutes / 60) % 12 || 12;
  return minutes % 60 === 0 && random.chance(0.6) ? String(hour) : `${hour}:${two(minutes % 60)}`;
}
