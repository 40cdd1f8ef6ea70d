/*
 * What a session may not have where it stands, and the whole sentences that say so: headings, indents, rounds, lines of
 * some lanes, settings, counts and ladders.
 */

import { expect, test } from 'vitest';
import { parseLanes, parseSession, titleOf } from '../../../app/core/session/parse.ts';

test.each<[text: string, ...faults: string[]]>([
  [
    'T\nPart\n50\n  words here\n50',
    '4:3 a line of words that is indented: put a heading at the left margin, and words on the line of their set',
  ],
  [
    'T\nPart\nlanes 1-2:\n  50\n  note: hi',
    '3:7 2 is not a lane of this session: its lanes are 1',
    '5:3 a note under a line of some lanes: write it above that line',
  ],
  ['T\nPart\nlanes 1-2:\n  50\nnote: hi', '3:7 2 is not a lane of this session: its lanes are 1'],
  [
    'T\nPart\nlane 1:\n  3 rounds\n    50\n    note: hi',
    '6:5 a note under a line of some lanes: write it above that line',
  ],
  ['T\n2 x\n 2 x\n  2 x\n   2 x\n    2 x\n     50', '6:5 rounds in rounds, 5 deep: write them at most 4 deep'],
  [
    'T\n0 x\n 2 x\n  2 x\n   2 x\n    2 x\n     50',
    '2:1 a count of 0: write one from 1 to 500',
    '6:5 rounds in rounds, 5 deep: write them at most 4 deep',
  ],
  [
    'T\n0 x\n    50\n  50\n50',
    '2:1 a count of 0: write one from 1 to 500',
    '4:3 this line is indented less than the first under its rounds: give both the same indent',
  ],
  [
    'T\nPart\n50\n  60\n50',
    '4:3 this line is indented deeper than the one above: only the lines under rounds or lanes may be',
  ],
  [
    'T\nPart\n  50\n50\n  50',
    '4:1 this line is indented less than the first line of its part: give both the same indent',
  ],
  [
    'T\nPart\n2 rounds\n    50\n  50\n50',
    '5:3 this line is indented less than the first under its rounds: give both the same indent',
  ],
  [
    'T\nPart\nlane 1:\n    50\n  50\n50',
    '5:3 this line is indented less than the first under its lanes: give both the same indent',
  ],
  [
    'T\nPart\nlane 1:\n50',
    '3:1 there is nothing under these lanes: write a set after the colon, or sets below, indented deeper',
  ],
  [
    'T\nPart\nlane 1:',
    '3:1 there is nothing under these lanes: write a set after the colon, or sets below, indented deeper',
  ],
  [
    'T\nPart\n2 rounds\n50',
    '3:1 there is nothing under these rounds: write the sets that repeat below, indented deeper',
  ],
  [
    'T\nPart\nlane 1:\n  talk 1:00\n50',
    "4:3 a talk for some lanes: everyone comes together for it, so write it at the part's margin",
  ],
  [
    'T\nPart\nlane 1:\n  break 1:00\n50',
    "4:3 a break for some lanes: everyone comes together for it, so write it at the part's margin",
  ],
  [
    'T\nPart\nlane 1:\n  lane 1: 50\n50',
    '4:3 lanes under lanes: what stands under a line of some lanes is for all of those',
  ],
  ['T\nPart\n501 rounds\n  50\n  3 rounds\n    50', '3:1 a count of 501: write one from 1 to 500'],
  ['T\nPart\nlane 9: 50\n50', '3:6 9 is not a lane of this session: its lanes are 1'],
  ['T\nPart\nlane 9:\n  50\n50', '3:6 9 is not a lane of this session: its lanes are 1'],
  [
    'T\nlane 1 css 9\nPart\nlane 9: 50',
    '2:12 9 per 100 after css: write a time from 0:20 to 10:00',
    '4:6 9 is not a lane of this session: its lanes are 1',
  ],
  [
    'T\nPart\nlane 1 x: 50',
    '3:1 lane is a setting: move it to the top, or for a set of one lane write lane 4: and then the set',
  ],
  [
    'T\nPart\n50 @ free\n 50',
    '3:4 an interval is missing after @, before free: write @ 1:30 or @ base',
    '4:2 this line is indented deeper than the one above: only the lines under rounds or lanes may be',
  ],
  [
    'T\nPart\n2 rounds\n  2 rounds\n    talk 1:00',
    '1:1 nothing to swim: a session needs at least one set, as in 4 x 50 easy @ 1:15',
  ],
  ['T\nPart\n2 rounds\n  talk 1:00', '1:1 nothing to swim: a session needs at least one set, as in 4 x 50 easy @ 1:15'],
  ['T\n\nlane 3 css 1:20', '1:1 nothing to swim: a session needs at least one set, as in 4 x 50 easy @ 1:15'],
  [
    'T\nPart\n50\nlane 3 css 1:20',
    '4:1 lane is a setting: move it to the top, or for a set of one lane write lane 4: and then the set',
  ],
  [
    'T\n25 m\nstart 19:30',
    '3:1 start is below 25 m on line 2, which is a swim: if that is the pool, write pool 25 m there',
  ],
  ['T\nPart\n50\ngap 5', '4:1 gap is a setting: move it to the top, before the first heading or set'],
  ['T\nPart\n50\npool 50 m\n', '4:1 pool is a setting: move it to the top, before the first heading or set'],
  [
    'T\nlane 1 css 9\nlanes 4\n4/5 x 50',
    '2:12 9 per 100 after css: write a time from 0:20 to 10:00',
    '3:1 lanes and a number: write lanes 1-3: and a set after it, or for their paces a line a lane, as in lane 1 css 1:20',
  ],
  [
    'T\nlane 1\nstart 7:30 pm\nfinish 8:30\n50',
    '4:8 am or pm is missing: the other time of the session has it, so write it here too',
  ],
  [
    'T\nlane 1\nfinish 7:30 pm\nstart 6:30\n50',
    '4:7 am or pm is missing: the other time of the session has it, so write it here too',
  ],
  ['T\nlane is 4x50\ngap 5\n50', '2:9 4x in a heading would be lost: write the set on a line of its own below it'],
  [
    'T\nlanes-to-be 4x50\ngap 5\n50',
    '2:13 4x in a heading would be lost: write the set on a line of its own below it',
    '3:1 gap is a setting: move it to the top, before the first heading or set',
  ],
  [
    'T\nthe gap is 4x50\ngap 5\n50',
    '2:12 4x in a heading would be lost: write the set on a line of its own below it',
    '3:1 gap is a setting: move it to the top, before the first heading or set',
  ],
  ['50 m x\n  50', '1:7 a distance is missing after x: write count x distance, as in 4 x 50'],
  ['4 x 3 x\n  50', '1:8 a distance is missing after x: write count x distance, as in 4 x 50'],
  ['5:\n50', '1:1 5 is less than one length: write 5 m if it is a distance, or count x distance'],
  ['100-200 - @ 3:00', '1:8 a distance is missing after - in the ladder'],
  [
    '3 x (4 x 50)\n  50',
    '1:5 a bracket after x: write 3 rounds on a line of its own, and the sets below it, indented deeper',
  ],
  ['15:00 of 100.55 @ 2:00', '1:10 100.55 has too many decimals: write a distance with at most one'],
  ['15:00 of 3 @ 2:00', '1:10 3 is less than one length: write 3 m if it is a distance, or count x distance'],
  [
    'lane 1\nlane 2\n3/4 rounds\n  50',
    '3:1 a list of rounds: write one number, because every lane swims the same rounds',
  ],
  [
    'lane 1 css 9\nlane 2\n4/5/6 x 50',
    '1:12 9 per 100 after css: write a time from 0:20 to 10:00',
    '3:1 a list of 3 for 2 lanes: write one value for all, or one for each lane',
  ],
  ['start 19:30 on 5\n50', '1:7 19:30 on 5 is not a time of day: write 0:00 to 23:59, as in 19:30, or 7:30 pm'],
  ['lane 1\nlane 1\n50', '2:6 a second line for lane 1: write one line for each lane'],
  [
    'gap 0\n20\n100',
    '1:5 0 after gap: write a whole number from 1 to 60, in seconds',
    '2:1 20 is less than one length: write 20 m if it is a distance, or count x distance',
  ],
  ['start 11:30 am - 13:30\nfinish 14:00\n50', '2:1 a second finish: write it only once'],
  ['start 19:30-20:30\nfinish 21:00\n50', '2:1 a second finish: write it only once'],
  ['finish 21:00\nstart 19:30-20:30\n50', '2:1 a second finish: it stands at most once'],
  ['start one', '1:1 nothing to swim: a session needs at least one set, as in 4 x 50 easy @ 1:15'],
  [
    'T\ngap 5 \nlanes 1-2\n4/5 x 50',
    '3:1 lanes and a number: write lanes 1-3: and a set after it, or for their paces a line a lane, as in lane 1 css 1:20',
  ],
  ['100-200 - ', '1:8 a distance is missing after - in the ladder'],
  ['100 - 200 -- 100', '1:10 a distance is missing after - in the ladder'],
  ['2 x 3/4 x 50', '1:5 a list of 2 for 1 lane: write one value for all, or one for each lane'],
  ['2 x 3 x 100-200', '1:9 a count before a ladder: write a rounds line above the ladder, or a count x one distance'],
  ['x 50', '1:1 nothing to swim: a session needs at least one set, as in 4 x 50 easy @ 1:15'],
  ['4 x 50 x', '1:9 a distance is missing after x: write count x distance, as in 4 x 50'],
  ['3 x', '1:1 there is nothing under these rounds: write the sets that repeat below, indented deeper'],
  ['4/free x 4 x 50', '1:3 a number is missing: write one on each side of /'],
  ['4 x 50m x 50', '1:5 a count in m: write the count before x and the distance after it'],
  ['8.5 x 4 x 50', '1:1 8.5 is not a count: write a whole number'],
  ['4 x 4.5 x 50', '1:5 4.5 is not a count: write a whole number'],
  ['4 x 2 x', '1:8 a distance is missing after x: write count x distance, as in 4 x 50'],
  ['4 x 2/ x 50', '1:8 a number is missing: write one on each side of /'],
  ['100-200/free', '1:9 a number is missing: write one on each side of /'],
  [
    'T\nPart\n3 x 4 yd\n  50',
    '3:5 4 yd in a pool measured in m: write distances in m',
    '4:3 this line is indented deeper than the one above: only the lines under rounds or lanes may be',
  ],
  ['T\nPart\n100 x\t50 y', '3:10 50 yd in a pool measured in m: write distances in m'],
  ['? what', '1:1 a line cannot begin with ?: begin a set with a number, a heading with a letter'],
  ['T\n? what\n50', '2:1 a line cannot begin with ?: begin a set with a number, a heading with a letter'],
  ['lane 1\npool 25 yd\n4 m', '3:1 4 m in a pool measured in yd: write distances in yd'],
  [
    'finish 7:30 pm\nstart 7:30\n50',
    '2:7 am or pm is missing: the other time of the session has it, so write it here too',
  ],
  [
    'T\nPart\n2 rounds\n  2 rounds\n    50\n   50',
    '6:4 this line is indented less than the first under its rounds: give both the same indent',
  ],
  [
    'T\nPart\n50\nlane 1 2\n',
    '4:1 lane is a setting: move it to the top, or for a set of one lane write lane 4: and then the set',
  ],
  [
    'gap 0\npool 5\nlane 1\n4/5 x 50\n100 yd',
    '1:5 0 after gap: write a whole number from 1 to 60, in seconds',
    '2:6 5 is not a pool: write its length and m or yd, as in pool 25 m',
    '4:1 a list of 2 for 1 lane: write one value for all, or one for each lane',
  ],
])('%j is told so: %s', (text, ...faults) => {
  const read = parseSession(text, null);
  expect(read.ok ? [] : read.faults.map(({ line, column, message }) => `${line}:${column} ${message}`)).toEqual(faults);
});

test('a heading and a title lose one colon behind them, and every run of blanks is one', () => {
  const read = parseSession('The  title :\nMain  \t set :\n50\nWho comes::\n50', null);
  expect(read).toMatchObject({ value: { title: 'The title', parts: [{ name: 'Main set' }, { name: 'Who comes:' }] } });
});

test('rounds and lines of some lanes swim where any line under them does, below talks too', () => {
  for (const under of ['talk 1:00\n  50', '2 rounds\n    50\n  talk 1:00', '15:00 easy', '15:00 of 50s @ 1:00']) {
    expect(parseSession(`2 rounds\n  ${under}`, null).ok).toBe(true);
  }
  expect(parseSession('lane 1:\n  2 rounds\n    50', null).ok).toBe(true);
  expect(parseSession('T\nBegin\ntalk 1:00\nMain\n50', null).ok).toBe(true);
});

test.each(['5:00 easy', '5:00 of 50s @ 1:00', '4 x 50', 'talk 1:00\n    50'])(
  '%j may stand in rounds four deep',
  (line) => {
    expect(parseSession(`2 x\n 2 x\n  2 x\n   2 x\n    ${line}`, null).ok).toBe(true);
  },
);

test.each(['', '  '])(
  "[margin %j] a note is its part's where it is indented no deeper than the part's own lines",
  (margin) => {
    const lines = ['2 rounds', '  50', 'note: two', ' note: three', '  note: four', '50'].map((line) => margin + line);
    const read = parseSession(`T\nPart\nnote: one\n${lines.join('\n')}`, null);
    expect(read.ok && read.value.notes.map(({ atMargin }) => atMargin)).toEqual([true, true, false, false]);
  },
);

test('lines under lanes may be as deep as they like below rounds, and rounds four deep below lanes', () => {
  expect(parseSession('lane 1:\n  2 x\n   2 x\n    2 x\n     2 x\n      50', null).ok).toBe(true);
});

test.each([
  ['Harbour\nMain\n50', 'Harbour'],
  ['lane 1\nHarbour :\n4 x', 'Harbour'],
  ['gap 5\nHarbour', 'Harbour'],
  ['50 easy\nHarbour\n50', null],
  ['gap 5\n4 x 50\nMain\n50', null],
  ['', null],
])('the title of %j is %j, whatever follows it', (text, title) => {
  expect(titleOf(text)).toBe(title);
});

test('a lanes file has its lanes by number, its pool and its gap', () => {
  const read = parseLanes('lane 4 base 2:00\ngap 10\nlane 2 css 1:20\npool 50 m\nlane 3\n');
  expect(read).toMatchObject({ value: { gap: 10_000, pool: { length: 5000, unit: 'm' } } });
  expect(read.ok && read.value.lanes.map(({ number }) => number)).toEqual([2, 3, 4]);
});

test('a lanes file is told of each line that has no place in it', () => {
  const message = 'not a line of a lanes file: it can have lane, pool and gap lines only';
  const read = parseLanes('Harbour\nlane 1\nstart 19:30\n4 x 50\nlane2');
  expect(read).toMatchObject({
    faults: [1, 3, 4].map((line) => ({ line, column: 1, message })).concat({ line: 5 } as never),
  });
});

test('twenty lanes are the most, those of the lanes file among them; a line for one of those adds none', () => {
  const lanes = (from: number, to: number) =>
    Array.from({ length: to - from + 1 }, (_, index) => `lane ${from + index}\n`).join('');
  const file = parseLanes(lanes(1, 19));
  const over = (text: string) => {
    const read = parseSession(text, file.ok ? file.value : null);
    return read.ok ? [] : read.faults.map(({ line, message }) => `${line} ${message}`);
  };
  expect(over(`${lanes(0, 0)}${lanes(5, 6)}50`)).toEqual([]);
  expect(over(`${lanes(5, 6)}${lanes(0, 0)}50`)).toEqual([]);
  expect(over(`${lanes(0, 0)}lane 20\nlane 5\n50`)).toEqual(['2 more than 20 lanes: a session can have 20 at most']);
});

test('a session of talks and breaks has nothing to swim', () => {
  for (const pause of ['talk 1:00', 'break 1:00', 'rest 1:00']) {
    expect(parseSession(`T\nMain\n${pause}`, null)).toMatchObject({
      faults: [{ line: 1, message: /nothing to swim/ }],
    });
  }
});

test('of all leaves beyond 100 000 one line is told', () => {
  const read = parseSession('200 rounds\n  500 x 50 @ 1:00\n50 easy\n50 easy', null);
  expect(read).toMatchObject({ faults: [{ line: 3 }] });
});

test.each([
  ['pool 5', '4 easy', [1, 2]],
  ['pool 5', '5 easy', [1]],
  ['pool 5', '20 easy', [1]],
  ['pool 20 m', '19.9 easy', []],
  ['pool 20 m', '19.8 easy', [2]],
])('after %j the distance of %j is judged by the pool only where that is known: %j', (pool, line, faulty) => {
  const read = parseSession(`${pool}\n${line}\n100`, null);
  expect(read.ok ? [] : read.faults.map((fault) => fault.line)).toEqual(faulty);
});
