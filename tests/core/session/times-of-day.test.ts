/*
 * Start and finish: on one line or two, by 24 hours or with am and pm, and what is refused.
 */

import { describe, expect, test } from 'vitest';
import { parseSession } from '../../../app/core/session/parse.ts';

/** "1170 1230", minutes after midnight, or where the faults are and what they say. */
function read(lines: string): string {
  const session = parseSession(`${lines}\n50`, null);
  if (session.ok) return `${session.value.startsAt} ${session.value.finishBy}`;
  return session.faults.map(({ line, column, message }) => `${line}:${column} ${message}`).join(' | ');
}

describe('[header] the time of a start or finish', () => {
  test.each([
    ['start 23:59', '1439 null'],
    ['start 12 pm', '720 null'],
    ['start 12:59 am', '59 null'],
    ['finish 8:30 pm', 'null 1230'],
    ['start 7:30 PM TO 8:30 PM', '1170 1230'],
    ['start 19:30\u221220:30', '1170 1230'],
    ['start 11:30 am-12:30 pm', '690 750'],
    ['start 7:30 pm-13:00', '1170 780'],
    ['start 7:30 pm\nfinish 13:00', '1170 780'],
  ])('%s', (lines, times) => {
    expect(read(lines)).toBe(times);
  });
});

describe('[header] one am or pm at the end is for both, unless the start would not be before the finish', () => {
  test.each([
    ['start 12-1 pm', '720 780'],
    ['start 9-8 pm', '540 1200'],
    ['start 1-1 pm', '60 780'],
    ['start 11-12 am', '1380 0'],
    ['start 10-2 am', '1320 120'],
    ['start 8-12 pm', '480 720'],
  ])('%s', (lines, times) => {
    expect(read(lines)).toBe(times);
  });
});

describe('[header] no time of day', () => {
  const no = (at: string, found: string) =>
    `${at} ${found} is not a time of day: write 0:00 to 23:59, as in 19:30, or 7:30 pm`;
  test.each([
    ['start 7:60', '1:7', '7:60'],
    ['start 24:00', '1:7', '24:00'],
    ['start 7:5', '1:7', '7:5'],
    ['start 019:30', '1:7', '019:30'],
    ['start 19:300', '1:7', '19:300'],
    ['start 0 am', '1:7', '0 am'],
    ['start 13 am', '1:7', '13 am'],
    ['start 7:30 pmx', '1:7', '7:30 pmx'],
    ['start 7:30 pm2', '1:7', '7:30 pm2'],
    ['start 19:30 20:30', '1:7', '19:30 20:30'],
    ['start 19:30 tomorrow', '1:7', '19:30 tomorrow'],
    ['start 7 to-night', '1:7', '7 to-night'],
    ['start 19:30 to', '1:14', 'nothing'],
    ['start 19:30-', '1:12', 'nothing'],
    ['start 7 am to 8', '1:15', '8'],
    ['start 13-8 pm', '1:7', '13'],
    ['start 19:60-20:30', '1:7', '19:60'],
    ['start 7:60-8:30 pm', '1:7', '7:60'],
    ['start 7-8:60 pm', '1:9', '8:60 pm'],
    ['finish 8', '1:8', '8'],
  ])('%s', (lines, at, found) => {
    expect(read(lines)).toBe(no(at, found));
  });
});

describe('[header] am or pm on one of the two and none on the other, which is 12 or less', () => {
  const missing = 'am or pm is missing: the other time of the session has it, so write it here too';
  test.each([
    ['start 7:30 pm-12:59', `1:15 ${missing}`],
    ['start 7:30 pm\nfinish 12:59', `2:8 ${missing}`],
    ['start 12:30\nfinish 1:30 pm', `1:7 ${missing}`],
    ['start 1 pm-1 pm', '1:7 the finish is the same as the start: write a later finish'],
    ['finish 19:30\nstart 19:30', '1:8 the finish is the same as the start: write a later finish'],
  ])('%s', (lines, fault) => {
    expect(read(lines)).toBe(fault);
  });
});
