/*
 * What is refused, where, and with which words. Columns count code points from 1, a tab as 4.
 */

import { describe, expect, test } from 'vitest';
import { parseSession } from '../../../app/core/session/parse.ts';
import type { Fault } from '../../../app/core/result.ts';

function faults(text: string): readonly Fault[] {
  const read = parseSession(text, null);
  return read.ok ? [] : read.faults;
}

const lines = (text: string): number[] => faults(text).map((fault) => fault.line);

/** Two lanes, one with a css, in 25 m; the line stands third in its part, so at line 6. */
const SQUAD = 'lane 1 css 1:20, base 1:30\nlane 2 base 1:40\nTitle\nPart\n50 easy\n';

const IN_A_PART: [line: string, column: number, words: string][] = [
  // TIME
  ['4 x 50 @ 1.30', 10, '1:30'],
  ['4 x 50 @ 130', 10, '2:10'],
  ['4 x 50 on 130 free', 11, '2:10'],
  ['4 x 50 on the 1.30', 15, '1:30'],
  ['4 x 50 @ 1:5', 10, 'two digits'],
  ['4 x 50 @ 1:75', 10, 'below 60'],
  ['4 x 50 @ 1:12.50', 10, 'not a time'],
  ['4 x 50 @ 1:12,5', 10, '1:12.5'],
  ['4 x 50 @ 10:00:00', 10, 'not a time'],
  ['4 x 50 @ 1:30odds', 10, '1:30odds'],
  ['4 x 50 @ 1:30min', 10, 'not a time'],
  ['4 x 50 rest 0', 13, '1 to 99'],
  ['4 x 50 rest 0.5', 13, '1 to 99'],
  ['4 x 50 rest 99.5', 13, '1 to 99'],
  ['4 x 50 hold 1.30', 13, '1:30'],
  ['4 x 50 @ base+130', 15, '2:10'],
  ['100 min easy', 1, '1:40:00'],
  ['1:5 easy', 1, 'two digits'],
  ['talk 1.30 turns', 6, '1:30'],
  ['130 of 100s @ base', 1, '2:10'],
  ["4 x 50 @ 1'75", 10, 'not a time'],
  ["4 x 50 @ 130''", 10, '2:10'],
  // What would be lost among words
  ['4 x 50 w/ 15 sec', 11, 'rest 15'],
  ['4 x 50 w/ 15s', 11, 'rest 15'],
  ['4 x 50 with 45" of rest', 13, 'would be lost'],
  ["4 x 50 with 1'30 @ 2:00", 13, 'would be lost'],
  ['4 x 50 from 1.40 @ 2:00', 13, '1:40'],
  ['10:00 easy w/ 20 seconds', 15, 'rest 20'],
  ['4 x (50 free, 50 back)', 5, '3 rounds'],
  // intervals
  ['4 x 50 @', 8, 'interval is missing'],
  ['4 x 50 @ free', 8, 'interval is missing'],
  ['4 x 50 @ 9', 10, '9:00'],
  ['4 x 50 @ 0:00', 10, 'above 0'],
  ['4 x 50 @ 1:00:00.5', 10, '1:00:00'],
  ['4 x 50 @ 1:00/9', 15, '9:00'],
  ['4 x 50 @ 1:00 @ 1:10', 15, 'second interval'],
  ['4 x 50 @ 1:00 on 1:10', 15, 'second interval'],
  ['4 x 50 @ 1:00 rest 10', 15, 'second interval'],
  ['4 x 50 rest 10 @ 1:00', 16, 'second interval'],
  ['4 x 50 @ base+', 14, 'missing after +'],
  ['4 x 50 @ base-45', 10, 'above 0'],
  ['4 x 50 @ 1:00/base-50', 15, 'lane 2'],
  ['4 x 10000 @ base', 13, '1:00:00'],
  ['10000 kick rest 1', 17, '1:00:00'],
  // drop, add, hold, rest
  ['5 x 100 @ 1:00 drop 15', 11, 'rep 5'],
  ['5 x 100 @ 59:50 add 5', 11, 'rep 5'],
  ['5 x 100 @ 1:00 drop', 16, 'missing after drop'],
  ['5 x 100 @ 1:00 drop fast', 16, 'missing after drop'],
  ['5 x 100 @ 1:00 fast drop 5', 21, 'must follow the interval'],
  ['5 x 100 drop 5 @ 1:00', 9, 'must follow the interval'],
  ['5 x 100 rest 15 drop 5', 17, 'must follow the interval'],
  ['5 x 100 drop 5', 9, 'must follow the interval'],
  ['5 x 100 @ 2:00 drop 5 fast', 23, 'comma'],
  ['5 x 100 @ 2:00 drop 5/10', 22, 'right after the value'],
  ['5 x 100 hold 1:20 fast @ 2:00', 19, 'comma'],
  ['5/0 x 100 @ 2:00 hold css fast', 27, 'comma'],
  ['5 x 100 @ 2:00 hold', 16, 'missing after hold'],
  ['5 x 100 @ 2:00 rest', 16, 'missing after rest'],
  ['5 x 100 @ 2:00 no ri', 19, 'missing after ri'],
  ['5 x 100 @ 2:00 hold 1:20 hold 1:30', 26, 'second target'],
  ['5 x 100 hold 0:00', 14, 'above 0'],
  ['5/0 x 100 hold css-80', 16, 'above 0'],
  ['5 x 100 hold css', 14, 'lane 2'],
  ['5 x 100 rest15', 9, 'space'],
  // words
  ['4 x 50 free 1:00', 13, 'would be lost'],
  ['4 x 50 free x 2', 13, 'would be lost'],
  ['4 x 50 free 2× @ 1:00', 13, 'would be lost'],
  ['4 x 50 25 + 25 @ 1:00', 8, 'would be lost'],
  ['4 x 50 @ 1:00-1:10', 10, 'not a time'],
  ['4 x 50 @ 1:00, then 1:10', 21, 'would be lost'],
  ['4 x 50 no rest @ 1:00 15 fast', 23, 'would read as "no rest 15 fast"'],
  // counts and distances
  ['501 x 50', 1, '500'],
  ['8.5 x 50', 1, 'whole'],
  ['99999999999999999999 x 50', 1, '500'],
  ['0 x 50', 1, 'at least one lane'],
  ['0/0 x 50', 1, 'at least one lane'],
  ['4/5/6 x 50', 1, '2 lanes'],
  ['4 x 50/75/100', 5, '2 lanes'],
  ['4 x 50 @ 1:00/1:10/1:20', 10, '2 lanes'],
  ['4 x 50 rest 1/2/3', 13, '2 lanes'],
  ['4 x 50 hold 40/50/60', 13, '2 lanes'],
  ['20:00 of 50/75/100 @ 1:00', 10, '2 lanes'],
  ['20:00 of 100s @ 1:00/1:10/1:20', 17, '2 lanes'],
  ['20:00 of 100s @ 2:00 hold 1:00/1:10/1:20', 27, '2 lanes'],
  ['20:00 of 100s rest 10/20/30', 20, '2 lanes'],
  ['4/ x 50', 4, 'missing'],
  ['4 x 50/', 8, 'missing'],
  ['4 x', 1, 'nothing under these rounds'],
  ['4 x free', 5, 'distance is missing'],
  ['4m x 50', 1, 'count'],
  ['4 x 1:30', 5, 'distance'],
  ['4 x 12.55', 5, 'too many decimals'],
  ['10001', 1, '10000'],
  ['4 m', 1, '5 to 10000'],
  ['8 lengths', 1, 'less than one length'],
  ['10 by 100', 1, 'less than one length'],
  ['24.8 easy', 1, 'less than one length'],
  ['4 x 100 yd', 5, 'yd in a pool measured in m'],
  ['4 x 100y', 5, 'yd in a pool measured in m'],
  ['4 x 100 yards', 5, 'yd in a pool measured in m'],
  ['100-200--100', 8, 'ladder'],
  ['100-200/300-100', 1, 'ladder'],
  ['3 x 100-200-100', 5, 'ladder'],
  [`25${'-25'.repeat(20)}`, 61, '2 to 20'],
  ['2 x 3 x 4 x 50', 9, 'less than one length'],
  // swims by time and timed blocks
  ['15:00 easy @ 1:00', 12, 'swim by time'],
  ['15:00 easy rest 10', 12, 'swim by time'],
  ['15:00 easy hold 1:20', 12, 'swim by time'],
  ['1:00:01 easy', 1, 'hour'],
  ['0:00 easy', 1, 'above 0'],
  ['20:00 of 100s free', 1, 'interval or rest is missing'],
  ['20:00 of 100-200 @ base', 13, 'ladder'],
  ['50:10 of 25 @ 0:06', 1, '500'],
  ['20:00 of 50 @ 1:00 drop 2', 15, 'rep 31'],
  // rounds
  ['0 rounds', 1, '1 to 500'],
  ['501 rounds', 1, '500'],
  ['3 rounds 4 x 50', 10, 'after the rounds'],
  ['3 rounds: 50', 11, 'after the rounds'],
  ['3 times of', 9, 'after the rounds'],
  ['3/2 rounds', 1, 'every lane'],
  ['3/2 x 4 x 50', 1, 'rounds'],
  ['2 rounds', 1, 'nothing under these rounds'],
  // talks, settings, headings, strangers
  ['talk', 1, 'time is missing'],
  ['talk about turns 1:30', 6, 'time is missing'],
  ['Rest', 1, 'time is missing'],
  ['break: drink', 8, 'time is missing'],
  ['lane 3 css 1:20', 1, 'to the top'],
  ['Start: 19:30', 1, 'to the top'],
  ['start on time', 1, 'to the top'],
  ['lane1', 1, 'to the top'],
  ['lanes 4', 1, 'write lanes 1-3:'],
  ['Main set 1:30', 10, 'would be lost'],
  ['Kick 4x', 6, 'would be lost'],
  ['Pull 200', 6, 'would be lost'],
  ['@ 1:00', 1, 'cannot begin with'],
  ['- - 50', 3, 'cannot begin with'],
  // characters
  ['50 easy\u0007', 8, 'control'],
  ['50 e\rasy', 5, 'carriage return'],
  ['50 easy \ud800', 9, 'UTF-8'],
  ['50 \u{1f3ca} easy \ufffd', 11, 'UTF-8'],
  [`50 ${'a'.repeat(498)}`, 501, '501 characters'],
];

const IN_THE_HEADER: [line: string, column: number, words: string][] = [
  ['lane1 css 1:20', 1, 'space'],
  ['lane:1', 1, 'space'],
  ['pool25 m', 1, 'space'],
  ['lanes 4', 1, 'a line a lane'],
  ['pool 25', 6, 'm or yd'],
  ['pool 0.99 m', 6, '1 to 100'],
  ['pool 100.01 m', 6, '1 to 100'],
  ['pool 25.125 m', 6, 'two decimals'],
  ['start 24:00', 7, '23:59'],
  ['start 19.30', 7, 'time of day'],
  ['start 19:30 sharp', 7, 'time of day'],
  ['gap 0', 5, '1 to 60'],
  ['gap 61', 5, '1 to 60'],
  ['gap 5.5', 5, 'whole'],
  ['between 30:01', 9, '30:00'],
  ['between auto', 12, 'missing'],
  ['between 1:00 auto', 14, 'nothing else'],
  ['start on 7', 10, '1, 5, 10, 15, 30, 60'],
  ['start on', 8, 'nothing'],
  ['grid 2', 6, '1, 5, 10'],
  ['pool on time', 6, 'm or yd'],
  ['lane 21', 6, '0 to 20'],
  ['lane 1.5', 6, '0 to 20'],
  ['lane 1 css 0:19', 12, '0:20'],
  ['lane 1 base 10:00.1', 13, '10:00'],
  ['lane 1 css', 10, 'missing'],
  ['lane 1 css 1.20', 12, '1:20'],
  ['lane 1 css 1:20 base 1:30', 17, 'comma'],
  ['lane 1 css 1:20, css 1:30', 18, 'second css'],
  ['lane 1 0 swimmers', 8, '1 to 20'],
  ['lane 1 21 swimmers', 8, '1 to 20'],
  ['lane 1 5 swimmers, Ana', 20, 'names and a number'],
  ['lane 1 Ana, 5 swimmers', 13, 'names and a number'],
  ['lane 1 Ana2', 8, 'neither a name'],
  ['lane 1 5 swimers', 10, '5 swimers is neither a name'],
  ['lane 1 css 1:20, 5swimers', 19, '5swimers is neither a name'],
  ['lane 1 5 people', 8, '5 people is neither a name'],
  ['lane 1 gap 0', 12, '1 to 60'],
  ['lane 1 Ana,, Bram', 12, 'between two commas'],
  [`lane 1 ${'A, '.repeat(20)}B`, 68, '20 names'],
  ['? what', 1, 'cannot begin with'],
];

describe('faults', () => {
  test.each(IN_A_PART)('[faults] in a part: %j at column %i says %s', (line, column, words) => {
    expect(faults(`${SQUAD}${line}\n50`)).toEqual([
      { line: 6, column, message: expect.stringContaining(words) as string },
    ]);
  });

  test.each(IN_THE_HEADER)('[faults] in the header: %j at column %i says %s', (line, column, words) => {
    expect(faults(`Title\n${line}\n50 easy\n`)).toEqual([
      { line: 2, column, message: expect.stringContaining(words) as string },
    ]);
  });

  test('[header] each setting stands at most once, a lane once a number', () => {
    const twice =
      'gap 5\nlane 1\ngap 5\nlane 2\nlane 1\nbetween 1:00\nbetween auto 1:00\nstart on 5\nstart 1:00\nstart 2:00\n50';
    expect(lines(twice)).toEqual([3, 5, 7, 10]);
  });

  test('[header] a finish the same as the start is a fault of its line', () => {
    expect(faults('finish 19:30\nstart 19:30\n50')).toMatchObject([
      { line: 1, column: 8, message: /the same as the start/ },
    ]);
  });

  test('[header] the twenty-first lane is a fault', () => {
    const lanes = Array.from({ length: 21 }, (_, number) => `lane ${number}\n`).join('');
    expect(faults(`${lanes}50 easy`)).toMatchObject([{ line: 21, message: /20 lanes/ }]);
  });

  test('[parts] margins: deeper without rounds, less deep, off the indent under rounds, headings astray', () => {
    expect(lines('T\nPart\n50\n  50\n50')).toEqual([4]);
    expect(lines('T\nPart\n  50\n50\n  50')).toEqual([4]);
    expect(lines('T\nPart\n2 rounds\n    50\n  50\n50')).toEqual([5]);
    expect(lines('T\nPart\n2 rounds\n  50\n    50\n  50')).toEqual([5]);
    expect(lines('T\nPart\n50\n Other\n50')).toEqual([4]);
    expect(lines('T\nPart\n50\n Other\n   50\n   50')).toEqual([4]);
    expect(lines('T\n Part\n50\nOther\n50\n Third\n50\n  Fourth\n50')).toEqual([8]);
  });

  test('[parts] the margin is set by the first line, even one at fault', () => {
    expect(lines('T\nPart\n  4 x\n  50\n50')).toEqual([3, 5]);
  });

  test('[rounds] a fault in a rounds line makes no faults of the lines under it', () => {
    expect(lines('T\n501 rounds\n  50\n  2 rounds please\n    50\n0 x\n  50')).toEqual([2, 4, 6]);
    expect(lines('T\n3 ronuds\n  50\n50')).toEqual([2]);
    expect(lines('T\n2 x\n 2 x\n  2 x\n   2 x\n    2 x\n     50')).toEqual([6]);
    expect(lines('T\n2 x\n 2 x\n  2 x\n   2 x\n    2 x 2 x 50')).toEqual([6]);
  });

  test('[text] nothing to swim is a fault of line 1, unless a faulty line may be the set', () => {
    for (const text of ['', '\n\n# 50\n', 'Title\nPart\ntalk 1:30\n']) {
      expect(faults(text)).toMatchObject([{ line: 1, column: 1, message: /nothing to swim/ }]);
    }
    expect(lines('Title\ngap 99')).toEqual([2]);
    expect(lines('Title\n\n4 x 50 @ 1.30')).toEqual([3]);
    expect(lines('Title\nPart 4 x 50')).toEqual([2]);
    expect(lines('Title\n4 x 100 yd')).toEqual([2]);
  });

  test('[text] nothing to swim is said where there is no other fault', () => {
    for (const text of ['Title\ngap 99', 'start 25:00\ntalk 1:30', 'Title\ntalk', 'finish 19:30\nstart 19:30\n']) {
      expect(faults(text).filter(({ message }) => message.includes('nothing to swim'))).toEqual([]);
      expect(faults(text)).toHaveLength(1);
    }
  });

  test('[blocks] a timed block in which not even one rep fits is a fault that names the lane and what would be right', () => {
    expect(faults('lane 4 base 2:00\n20:00 of 2000s free @ base')).toEqual([
      {
        line: 2,
        column: 23,
        message:
          'not one rep fits in lane 4: a rep takes 40:00 and the block lasts 20:00: give the block 40:00 or more, or write shorter reps',
      },
    ]);
    const lanes = 'lane 0 base 1:30\nlane 2 base 2:00\nlane 7 base 2:30\n';
    const named = (line: string): unknown =>
      faults(lanes + line).map(({ column, message }) => [column, message.slice(0, 29)]);
    expect(named('2:00 of 100s @ base')).toEqual([[16, 'not one rep fits in lane 7: a']]);
    expect(named('2:00 of 100s @ 1:30/2:05/2:10')).toEqual([[21, 'not one rep fits in lane 2: a']]);
    expect(named('2:00 of 50/50/200 @ base')).toEqual([[21, 'not one rep fits in lane 7: a']]);
    expect(named('2:00 of 100s rest 10/10/20')).toEqual([[25, 'not one rep fits in lane 7: a']]);
    expect(named('2:00 of 100s @ 2:05 drop 10')).toEqual([[16, 'not one rep fits in lane 0: a']]);
    expect(named('2:30 of 100s @ base')).toEqual([]);
    expect(named('3 rounds\n  2:00 of 100s @ base')).toEqual([[18, 'not one rep fits in lane 7: a']]);
  });

  test('[blocks] where the lanes are at fault, a rep that fits in none is still told, without a lane', () => {
    expect(faults('lane 1 css 9\n2:00 of 100s @ 2:05')).toMatchObject([
      { line: 1 },
      { line: 2, column: 16, message: /^not one rep fits: a rep takes 2:05/ },
    ]);
    expect(lines('lane 1 css 9\n2:00 of 300s @ base')).toEqual([1]);
  });

  test('[text] more than 100 000 leaves: all lanes, rounds written out; an untimed set is one, a talk none', () => {
    const two = 'lane 1\nlane 2\n';
    expect(lines(`${two}100 rounds\n  500 x 50 @ 1:00`)).toEqual([]);
    // Nobody leaves for a talk or break.
    expect(lines(`${two}100 rounds\n  500 x 50 @ 1:00\ntalk 1:00\nbreak 1:00`)).toEqual([]);
    expect(lines(`${two}100 rounds\n  500 x 50 @ 1:00\n50 easy`)).toEqual([5]);
    expect(lines(`${two}500 rounds\n  500 rounds\n    50 @ 1:00`)).toEqual([3]);
    expect(lines(`${two}500 rounds\n  100 rounds\n    500 x 50 easy`)).toEqual([]);
    expect(lines(`${two}500 x 500 x 50 @ 1:00`)).toEqual([3]);
  });

  test('[text] halves of a surrogate pair are faults, also where a line end parts them', () => {
    expect(lines('50\ud83c\n\udfca')).toEqual([1, 2]);
  });

  test('[text] a file of 256 KiB is read, a larger one refused', () => {
    const comment = `${'#'.repeat(400)}\n`.repeat(700).slice(0, 256 * 1024 - 3);
    expect(lines(`50\n${comment}`)).toEqual([]);
    expect(lines(`50\n${comment}\n`)).toEqual([1]);
    expect(lines(`50\n${comment.replace('##', '#é')}`)).toEqual([1]);
  });

  test('[faults] one mistake in the header is told once, not in every line that rests on it', () => {
    expect(lines('lane 1\nlane1\n4/5 x 50\n50 @ 1:00/1:10')).toEqual([2]);
    expect(lines('pool 50 yards\n4 x 100 yd\n')).toEqual([1]);
    expect(lines('lane 1 css 9\n4 x 50 hold css\n4 x 50 @ base-80')).toEqual([1]);
    expect(lines('lane 1\n4/5 x 50\nlane 2\n50')).toEqual([3]);
  });

  test('[faults] every faulty line at once, by line', () => {
    expect(lines('gap 0\nT\nPart 1:30\n4 x 50 @ 130\n\ttalk\n50 easy\n0 x 50\n?\n')).toEqual([1, 3, 4, 5, 7, 8]);
  });

  test('[faults] a character that cannot be seen is named where the text looks right', () => {
    for (const line of ['\u200b4 x 50 @ 1:00', '4 x 50 @ \u20601:00', '4\u00ad x 50 @ 1:00']) {
      const [fault] = faults(line);
      expect(fault!.message, JSON.stringify(line)).toMatch(
        /; a character that cannot be seen stands in the line: type it anew$/,
      );
      expect(fault!.message).not.toMatch(/[\u00ad\u200b\u2060]/);
    }
  });

  test('[faults] columns count a tab as 4 and a letter outside the basic plane as 1', () => {
    expect(faults('T\n\t- 4 x 50 @ 1.30')).toMatchObject([{ line: 2, column: 16 }]);
    expect(faults('50 \u{1f3ca}\u{1f3ca} @ 1.30')).toMatchObject([{ line: 1, column: 9 }]);
  });

  test('[faults] a message is one clear sentence with what was found and what would be right', () => {
    expect(faults('4 x 50 @ 1.30')[0]!.message).toBe('1.30 is not a time: write 1:30 (or 1.3 for seconds)');
    expect(faults('4 x 50 @ 130')[0]!.message).toBe('130 is not a time: write 2:10 if you mean seconds, or 1:30');
  });
});
