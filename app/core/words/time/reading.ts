/*
 * Times as people read them: `m:ss`, past the hour `h:mm:ss`, with a tenth where there is one. Everything is whole
 * division of milliseconds, so that no float is ever shown.
 */

import { HOUR, MINUTE, SECOND, type Millis } from '../../units.ts';

/** A length of time, or a leave on a clock that started at 0. Less than a tenth is cut off; `-0:05` below zero. */
export function reading(time: Millis): string {
  if (time < 0) return `-${reading(-time)}`;
  const hours = Math.floor(time / HOUR);
  const minutes = Math.floor((time % HOUR) / MINUTE);
  const start = hours > 0 ? `${hours}:${twoDigits(minutes)}` : `${minutes}`;
  return `${start}:${twoDigits(Math.floor((time % MINUTE) / SECOND))}${tenthOf(time)}`;
}

/** What is past, in whole seconds: those begun are not counted. */
export function readingPast(time: Millis): string {
  return reading(Math.floor(time / SECOND) * SECOND);
}

/** How long something will take, or what is left of it, in whole seconds: one begun counts whole. Never below 0. */
export function readingLeft(time: Millis): string {
  return reading(secondsLeft(time) * SECOND);
}

/** 7 as long as more than 6 s are left; never below 0. */
export function secondsLeft(time: Millis): number {
  return Math.max(0, Math.ceil(time / SECOND));
}

/** "in 22 s", "in 1:05": how soon. */
export function inText(time: Millis): string {
  return `in ${spanText(secondsLeft(time) * SECOND)}`;
}

/** In seconds below a minute (`45 s`, `4.9 s`), else as a reading; less than a tenth is cut off. */
export function spanText(span: Millis): string {
  return span < MINUTE ? `${Math.floor(span / SECOND)}${tenthOf(span)} s` : reading(span);
}

export function twoDigits(value: number): string {
  return value < 10 ? `0${value}` : `${value}`;
}

/** ".4"; '' for a whole second. */
function tenthOf(time: Millis): string {
  const tenth = Math.floor((time % SECOND) / 100);
  return tenth > 0 ? `.${tenth}` : '';
}
