/*
 * Times as people read them: `m:ss`, past the hour `h:mm:ss`, with a tenth where there is one; and
 * times of day. Everything is whole division of milliseconds, so that no float is ever shown.
 */

import { DAY, HOUR, MINUTE, SECOND, type Millis, type MinuteOfDay } from './units.ts';

/** A length of time, or a leave on a clock that started at 0. Less than a tenth is cut off; `-0:05` below zero. */
export function reading(time: Millis): string {
  if (time < 0) return `-${reading(-time)}`;
  const hours = Math.floor(time / HOUR);
  const minutes = Math.floor((time % HOUR) / MINUTE);
  const seconds = twoDigits(Math.floor((time % MINUTE) / SECOND));
  const tenth = Math.floor((time % SECOND) / 100);
  const start = hours > 0 ? `${hours}:${twoDigits(minutes)}` : `${minutes}`;
  return `${start}:${seconds}${tenth > 0 ? `.${tenth}` : ''}`;
}

/** `HH:MM` of a minute of the day. */
export function timeOfDay(minute: MinuteOfDay): string {
  return `${twoDigits(Math.floor(minute / 60))}:${twoDigits(minute % 60)}`;
}

/** The time of day so long after another, past midnight from 00:00 again: `HH:MM`, or `HH:MM:SS` off the full minute. */
export function timeOfDayAfter(start: MinuteOfDay, after: Millis): string {
  const time = (start * MINUTE + after) % DAY;
  const seconds = Math.floor((time % MINUTE) / SECOND);
  const minute = timeOfDay(Math.floor(time / MINUTE));
  return seconds > 0 ? `${minute}:${twoDigits(seconds)}` : minute;
}

/** In seconds below a minute (`45 s`, `4.9 s`), else as a reading; less than a tenth is cut off. */
export function spanText(span: Millis): string {
  if (span >= MINUTE) return reading(span);
  const seconds = Math.floor(span / SECOND);
  const tenth = Math.floor((span % SECOND) / 100);
  return `${seconds}${tenth > 0 ? `.${tenth}` : ''} s`;
}

function twoDigits(value: number): string {
  return value < 10 ? `0${value}` : `${value}`;
}
