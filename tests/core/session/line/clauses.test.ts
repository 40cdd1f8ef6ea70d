/*
 * What the clauses of a line mean, in every way they may be spelt; and of those that mean nothing, the whole sentence.
 */

import { expect, test } from 'vitest';
import { parseSession } from '../../../../app/core/session/parse.ts';
import type { SwimSet, Way } from '../../../../app/core/session/session.ts';

const parsed = (line: string) => parseSession(`Title\nPart\n${line}\n50`, null);

test.each<[line: string, column: number, message: string]>([
  ['4 x 50 @', 8, 'an interval is missing after @: write @ 1:30 or @ base'],
  ['4 x 50 @ free fast', 8, 'an interval is missing after @, before free: write @ 1:30 or @ base'],
  ['4 x 50 @ 10.20', 10, '10.20 is not a time: write 10:20 (or 10.2 for seconds)'],
  ['4 x 50 @ 0.30', 10, '0.30 is not a time: write 0:30'],
  ['4 x 50 @ 1.35', 10, '1.35 is not a time: write 1:35'],
  ['4 x 50 @ 1300', 10, '1300 is not a time: write 21:40 if you mean seconds, or 13:00'],
  ['4 x 50 @ 0045', 10, '0045 is not a time: write 0:45 if you mean seconds, or 0:45'],
  ['4 x 50 @ 199', 10, '199 is not a time: write 3:19 if you mean seconds'],
  ['4 x 50 @ 12345', 10, '12345 is not a time: write it as 1:30, 1:12.5 or 90, with a space after it'],
  ['4 x 50 @ 150 min', 10, '150 is not a time: write 2:30:00'],
  ['4 x 50 @ 1500 min', 10, '1500 is not a time: write 25:00 if you mean seconds, or 15:00'],
  ['4 x 50 @ 150 kmin', 10, '150 is not a time: write 2:30 if you mean seconds, or 1:50'],
  ['4 x 50 @ 130.5', 10, '130.5 is not a time: write it as 1:30, 1:12.5 or 90, with a space after it'],
  ['4 x 50 @ 1.305', 10, '1.305 is not a time: write it as 1:30, 1:12.5 or 90, with a space after it'],
  ['4 x 50 @ 1:12,5', 10, '1:12,5 is not a time: write tenths after a point, as in 1:12.5'],
  ['4 x 50 @ 1:30x,5', 10, '1:30x,5 is not a time: write it as 1:30, 1:12.5 or 90, with a space after it'],
  ['4 x 50 @ 1:3O', 10, '1:3O is not a time: write the digit 0 in place of the letter O'],
  ['4 x 50 @ 1:o5', 10, '1:o5 is not a time: write the digit 0 in place of the letter O'],
  ['4 x 50 @ 12,5', 10, '12,5 is not a time: write tenths after a point, as in 12.5'],
  ['4 x 50 @ 1:30odds', 10, '1:30odds is not a time: write it as 1:30, 1:12.5 or 90, with a space after it'],
  ['4 x 50 rest 0', 13, '0 is not a time: write seconds without a colon only from 1 to 99'],
  ['4 x 50 @ 100.5', 10, '100.5 is not a time: write it as 1:30, 1:12.5 or 90, with a space after it'],
  ['4 x 50 @ 1:00/ fast now', 16, 'a time is missing before fast: write it as 1:30, or 90 for seconds'],
  ['4 x 50 @ 1:00/', 15, 'a time is missing: write it as 1:30, or 90 for seconds'],
  [
    '4 x 50 @ 1:30123456789012345678901234',
    10,
    '1:3012345678901234567890… is not a time: write two digits below 60 after a colon, as in 1:05 or 1:02:30',
  ],
  [
    '4 x 50 @ 1:3012345678901234567890',
    10,
    '1:3012345678901234567890 is not a time: write two digits below 60 after a colon, as in 1:05 or 1:02:30',
  ],
  [
    '4 x 50 @ 1:30123456789012345678901',
    10,
    '1:3012345678901234567890… is not a time: write two digits below 60 after a colon, as in 1:05 or 1:02:30',
  ],
  ['4 x 50 @ 5"', 10, '5 is too short for an interval: write 5:00 for minutes, or 0:05'],
  ["4 x 25 rest 0'", 13, "0' is not a time: write seconds without a colon only from 1 to 99"],
  ['4 x 25 rest 0"', 13, '0" is not a time: write seconds without a colon only from 1 to 99'],
  ['4 x 25 rest 0.5"', 13, '0.5" is not a time: write seconds without a colon only from 1 to 99'],
  ['4 x 25 rest 99.5"', 13, '99.5" is not a time: write seconds without a colon only from 1 to 99'],
  ['4 x 25 rest 99.5', 13, '99.5 is not a time: write seconds without a colon only from 1 to 99'],
  ['4/1:30 x 50', 3, '1:30 x 50 is in the place of a count or a distance: write a number there'],
  ['4 x 50/1:30', 8, '1:30 is in the place of a count or a distance: write a number there'],
  ['4 x 50/free', 8, 'a number is missing: write one on each side of /'],
  ['4 x 50/12.55', 8, '12.55 has too many decimals: write a distance with at most one'],
  ['5 easy', 1, '5 is less than one length: write 5 m if it is a distance, or count x distance'],
  ['4.9 m easy', 1, '4.9 is too short: write a distance from 5 to 10000'],
  ['2 x 50 @ 1:00, 1:5', 16, '1:5 is not a time: write two digits below 60 after a colon, as in 1:05 or 1:02:30'],
  ['2 x 50 hold css+', 16, 'seconds are missing after +: write css+5'],
  ['2 x 50 @ css+', 13, 'seconds are missing after +: write css+5'],
  ['100 yard easy', 1, '100 yd in a pool measured in m: write distances in m'],
  ['4 x 50 @ free odds @ 1:00 evens @ 1:10', 8, 'an interval is missing after @, before free: write @ 1:30 or @ base'],
  [
    '4 x 50 odds @ 1:00 evens 15 s',
    20,
    'an interval or rest is missing after evens: odds have their own, so write one',
  ],
  ['4 x 50 odds @ 1:00 evens @ 1.30', 28, '1.30 is not a time: write 1:30 (or 1.3 for seconds)'],
  ['4 x 50 hold 40 odds hold 41 @ 1:00 evens @ 1:10', 26, 'a second target: a rep has one hold'],
  ['4 x 50 hold 40 odds @ 1:00 evens hold 41 @ 1:10', 39, 'a second target: a rep has one hold'],
  [
    '4 x 50 odds @ 1:00 hold 40, 41 evens @ 1:10',
    29,
    'one value a rep beside odds and evens: write one for each of the two',
  ],
  ['4 x 50 odds @ 1:00, 1:10 evens @ 1:10', 21, 'one value a rep beside odds and evens: write one for each of the two'],
  ['4 x 50 on 1:5 @ 1:00', 11, '1:5 is not a time: write two digits below 60 after a colon, as in 1:05 or 1:02:30'],
  ['4 x 50 rest: 15', 8, 'a value is missing after rest: write rest 15'],
  ['4 x 50 hold:  1:20', 8, 'a value is missing after hold: write hold 1:20'],
  ['3 x 50 @ 1:00, 1:10, 1:20 drop 5', 27, 'drop after one interval a rep: write the intervals, or one and drop'],
  ['4 x 50 @ 2:00 drop 1.30', 20, '1.30 is not a time: write 1:30 (or 1.3 for seconds)'],
  ['4 x 50 @ 2:00 drop', 15, 'a value is missing after drop: write drop 5'],
  [
    '4 x 50 rest 15 , 20',
    18,
    'a comma and a number after a rest: a line has one rest, as in rest 15, or one a lane, as in rest 15/20',
  ],
  [
    '4 x 50 rest 15,  20',
    18,
    'a comma and a number after a rest: a line has one rest, as in rest 15, or one a lane, as in rest 15/20',
  ],
  ['4 x 100 hold 1:20 15 fast @ 2:00', 19, '15 right after the value of hold: put a comma between them'],
  ['4 x 100 hold 1:20 fast swim', 19, 'fast right after the value of hold: put a comma between them'],
  [
    '4 x 50 hold @ 1:00 css',
    20,
    'the words before and after the interval would read as "hold css" together: put them on one side of it',
  ],
  [
    '4 x 50 on 12.30 pace @ 1:00',
    11,
    '12.30 among the words would be lost: write a time with a colon, as in 12:30, after @, on, rest or hold',
  ],
  ['4 x 50 on 1.5 pace @ 1:00', 11, '1.5 is too short for an interval: write 1:30 for minutes, or 0:01.5'],
  ['4 x 50 on 5 pace @ 1:00', 11, '5 is too short for an interval: write 5:00 for minutes, or 0:05'],
  ['4 x 50 add 5 @ 1:00', 8, 'add must follow the interval and have a value after it: write @ 2:00 add 5'],
  ['4 x 50 @ 1:00 drop 5 add 5', 22, 'add must follow the interval and have a value after it: write @ 2:00 add 5'],
  ['4 x 50 on 130', 11, '130 is not a time: write 2:10 if you mean seconds, or 1:30'],
  ['4 x 50 easy, on 130, on 140', 17, '130 is not a time: write 2:10 if you mean seconds, or 1:30'],
  ['19.9 easy', 1, '19.9 is less than one length: write 19.9 m if it is a distance, or count x distance'],
  ['4 x 50 @ 9.5', 10, '9.5 is too short for an interval: write 9:30 for minutes, or 0:09.5'],
  ["4 x 50 @ 1:30 2:00'", 15, '2:00 among the words would be lost: put a time after @, on, rest, hold, drop or add'],
  [
    '4 x 50 odds @ 1:00 drop 5 evens @ 1:10',
    15,
    'drop or add beside odds and evens: write the intervals one a rep instead',
  ],
  ['4 x 50 odds @ 1:00 evens @ 1:10 @ 1:20', 33, 'a second interval or rest: write only one of them on a line'],
  ['4 x 50 @ 2:00 odds @ 1:00 evens @ 1:10', 8, 'a third interval or rest: beside odds and evens each has its own'],
  ['4 x 50 @ 150kmin', 10, '150kmin is not a time: write 2:30 if you mean seconds, or 1:50'],
  ['4 x 50 @ 123.30', 10, '123.30 is not a time: write it as 1:30, 1:12.5 or 90, with a space after it'],
  ['4 x 50 @ 1299', 10, '1299 is not a time: write 21:39 if you mean seconds'],
  ['4 x 50 @ 1:12,5 easy', 10, '1:12,5 is not a time: write tenths after a point, as in 1:12.5'],
  ['4 x 50 odds 15 s evens @ free', 24, 'an interval is missing after @, before free: write @ 1:30 or @ base'],
  ['4 x 50 on 5 130 @ 1:00', 11, '5 is too short for an interval: write 5:00 for minutes, or 0:05'],
])('%j is told at column %i: %s', (line, column, message) => {
  expect(parsed(line)).toEqual({ ok: false, faults: [{ line: 3, column, message }] });
});

/** Each way of a set: its words, the interval or rest in seconds and the target. */
function waysOf(line: string): readonly string[] {
  const read = parsed(line);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const set = read.value.parts[0]!.items[0] as SwimSet;
  return (set.ways ?? [set]).map(wayText);
}

function wayText({ words, timing, hold }: Way): string {
  const [timed, held] = [timing.kind === 'untimed' ? null : timing.lanes[0], hold?.[0]];
  const of = timing.kind === 'rest' ? 'rest' : '@';
  const value =
    typeof timed === 'object' && timed ? (timed.kind === 'time' ? timed.time / 1000 : timed.kind) : timed! / 1000;
  const step = timing.kind === 'interval' && timing.step !== 0 ? `step ${timing.step / 1000}` : '';
  const target = held ? `hold ${held.kind === 'time' ? held.time / 1000 : held.kind}` : '';
  return [words, timed === null ? '' : `${of} ${value}`, step, target].filter((piece) => piece !== '').join(' ');
}

test.each<[line: string, ...ways: string[]]>([
  ['4 x 50 rest 15 seconds', 'rest 15'],
  ['4 x 50 15 second rest', 'rest 15'],
  ['4 x 50 rest 1 minute', 'rest 60'],
  ['4 x 50 15 sec rest', 'rest 15'],
  ['4 x 50 @ 10"', '@ 10'],
  ["4 x 25 @ 0'05", '@ 5'],
  ["4 x 25 rest 0'00", 'rest 0'],
  ['4 x 25 rest 1"', 'rest 1'],
  ['4 x 25 rest 99"', 'rest 99'],
  ['4 x 25 @ 1\'30.5"', '@ 90.5'],
  ['5 m easy', 'easy'],
  ['4 x 50 @ 10', '@ 10'],
  ['2 x 50 @ 1:00, base', '@ 60', '@ base'],
  ['2 x 50 @ 1:00, 130 fast', '130 fast @ 60'],
  ['2 x 50 @ 1:00 , 1:10', '@ 60', '@ 70'],
  ['4 x 50 @ 1:00, 30 second fast', '30 second fast @ 60'],
  ['4 x 50 @ 1:00, 30 sec fast', '30 sec fast @ 60'],
  ['4 x 50 @ 1:00, 30.5 fast', '30.5 fast @ 60'],
  ['4 x 50 @ 1:00:00', '@ 3600'],
  ['50: easy', ': easy'],
  ['1 x 100 metre easy', 'easy'],
  ['100 meter easy', 'easy'],
  ['4 x 50 odds kick odds @ 1:00 evens @ 1:10', 'kick odds @ 60', '@ 70'],
  ['4 x 50 w/ 15 s odds @ 1:00 evens @ 1:10', 'w/ 15 s @ 60', 'w/ 15 s @ 70'],
  ['4 x 50 free odds fast @ 1:00 evens easy @ 1:10', 'free fast @ 60', 'free easy @ 70'],
  ['4 x 50 drop slowly, add kick @ 1:00', 'drop slowly, add kick @ 60'],
  ['4 x 50 rest: easy', 'rest: easy'],
  ['4 x 50 rest:15', 'rest 15'],
  ['4 x 100 hold 1:20 15 s rest', 'rest 15 hold 80'],
  ['4 x 50 common 20 strokes', 'common 20 strokes'],
  ['4 x 50 on  the  1:20', '@ 80'],
  ['4 x 50 on   1:20', '@ 80'],
  ['4 x 50 15 s  rest', 'rest 15'],
  ['4 x 50 15 s rest 20', '15 s rest 20'],
  ['4 x 50 @ 2:00  ,  drop  5', '@ 120 step -5'],
  ['4 x 50 w/ 15 sec @ 1:00', 'w/ 15 sec @ 60'],
])('%j means %s', (line, ...ways) => {
  expect(waysOf(line)).toEqual(ways);
});

test('a line in odds and evens has the words of both in the order of the text', () => {
  const read = parsed('4 x 50 free odds fast @ 1:00 evens easy @ 1:10');
  expect(read).toMatchObject({ value: { parts: [{ items: [{ words: 'free, odds fast, evens easy' }, {}] }] } });
});
