/*
 * Settings, lanes, rounds, talks and timed blocks: what each may be written as, up to the last value allowed, and the
 * whole sentence for what it may not be.
 */

import { expect, test } from 'vitest';
import { parseSession } from '../../../../app/core/session/parse.ts';
import type { Session } from '../../../../app/core/session/session.ts';

test.each<[text: string, column: number, message: string]>([
  ['lane 1 gap\n50', 10, 'nothing after gap: write a whole number from 1 to 60, in seconds'],
  ['lane 1 gap 5.5\n50', 12, '5.5 after gap: write a whole number from 1 to 60, in seconds'],
  ['lane 1 gap 61\n50', 12, '61 after gap: write a whole number from 1 to 60, in seconds'],
  ['lane 1 gap 1234567\n50', 12, '1234567 after gap: write a whole number from 1 to 60, in seconds'],
  ['lane 1 gap x5\n50', 12, 'x5 after gap: write a whole number from 1 to 60, in seconds'],
  ['lane 1 gap 5x\n50', 12, '5x after gap: write a whole number from 1 to 60, in seconds'],
  ['lane 1 css\n50', 10, 'a time is missing after css: write css 1:30'],
  ['lane 1 css 1:20x\n50', 12, '1:20x is not a time: write it as 1:30, 1:12.5 or 90, with a space after it'],
  ['lane 1 css 10:00.5\n50', 12, '10:00.5 per 100 after css: write a time from 0:20 to 10:00'],
  ['lane 1 css 0:19.9\n50', 12, '0:19.9 per 100 after css: write a time from 0:20 to 10:00'],
  ['lane 1, # x\n50', 7, 'there is nothing between two commas: write base, css, gap, swimmers or a name'],
  [
    'lane 1 3 swimmers please\n50',
    8,
    '3 swimmers please is neither a name nor a lane setting: write base 1:30, css 1:20, 5 swimmers or gap 10',
  ],
  [
    'lane 1 about 3 swimmers\n50',
    8,
    'about 3 swimmers is neither a name nor a lane setting: write base 1:30, css 1:20, 5 swimmers or gap 10',
  ],
  ['lane 1 21 swimmers\n50', 8, '21 swimmers: a lane has 1 to 20'],
  ['lane 1 0 swimmers\n50', 8, '0 swimmers: a lane has 1 to 20'],
  ['lane 1 css 1:20,, Ana\n50', 17, 'there is nothing between two commas: write base, css, gap, swimmers or a name'],
  ['lane 1 ,\n50', 8, 'there is nothing between two commas: write base, css, gap, swimmers or a name'],
  ['lane 1,\n50', 7, 'there is nothing between two commas: write base, css, gap, swimmers or a name'],
  ['lane :5\n50', 6, ':5 is not a lane number: write one from 0 to 20'],
  ['lane 21,css 1:20\n50', 6, '21 is not a lane number: write one from 0 to 20'],
  ['lane 1 gap 0\n50', 12, '0 after gap: write a whole number from 1 to 60, in seconds'],
  ['lane 1 css 1:20  Ana\n50', 18, 'Ana right after css: put a comma between them'],
  ['lane 1 Ana, 3 swimmers\n50', 13, 'names and a number of swimmers together: write one or the other'],
  ['lane 1 3 swimmers, Ana\n50', 20, 'names and a number of swimmers together: write one or the other'],
  ['lane 1 Ana #, Bram\n50', 8, 'a name that ends in #: leave out the #, which begins a comment'],
  ['lane 1 #, Bram\n50', 8, 'a name that ends in #: leave out the #, which begins a comment'],
  [`lane 1 ${'Ana, '.repeat(20)}Bram\n50`, 108, 'more than 20 names: a lane has 1 to 20 swimmers'],
  ['lane 21\n50', 6, '21 is not a lane number: write one from 0 to 20'],
  ['lane 1.5\n50', 6, '1.5 is not a lane number: write one from 0 to 20'],
  ['lane 1x\n50', 6, '1x is not a lane number: write one from 0 to 20'],
  ['lane 1;Ana\n50', 6, '1;Ana is not a lane number: write one from 0 to 20'],
  ['lane 1 base 1:30, base 1:40\n50', 19, 'a second base for the lane: write it only once'],
  ['lane 1 gap 5, gap 6\n50', 15, 'a second gap for the lane: write it only once'],
  ['lane 1 3 swimmers, 4 swimmers\n50', 20, 'a second number of swimmers for the lane: write it only once'],
  [
    'lane 1 Ana-Maria 3\n50',
    8,
    'Ana-Maria 3 is neither a name nor a lane setting: write base 1:30, css 1:20, 5 swimmers or gap 10',
  ],
  [
    'lane 1 fast css 1:20\n50',
    8,
    'fast css 1:20 is neither a name nor a lane setting: write base 1:30, css 1:20, 5 swimmers or gap 10',
  ],
  ['lane:1\n50', 1, 'lane:1 needs a space: write lane, a space and then its value'],
  ['gap:5\n50', 1, 'gap:5 needs a space: write gap, a space and then its value'],
  ['gap5\n50', 1, 'gap5 needs a space: write gap, a space and then its value'],
  ['gap:  70\n50', 7, '70 after gap: write a whole number from 1 to 60, in seconds'],
  ['pool:25 m\n50', 1, 'pool:25 needs a space: write pool, a space and then its value'],
  ['pool/25 m\n50', 1, 'pool/25 needs a space: write pool, a space and then its value'],
  ['pool 25 mm\n50', 6, '25 mm is not a pool: write its length and m or yd, as in pool 25 m'],
  ['pool 101 m\n50', 6, 'a pool cannot be 101 m long: write a length from 1 to 100, with at most two decimals'],
  ['pool 0.5 m\n50', 6, 'a pool cannot be 0.5 m long: write a length from 1 to 100, with at most two decimals'],
  ['pool 25.555 m\n50', 6, 'a pool cannot be 25.555 m long: write a length from 1 to 100, with at most two decimals'],
  ['between auto\n50', 12, 'a time is missing after between: write between 1:00 or between auto 0:45'],
  ['between auto x\n50', 14, 'a time is missing after between: write between 1:00 or between auto 0:45'],
  ['between 1.30\n50', 9, '1.30 is not a time: write 1:30 (or 1.3 for seconds)'],
  ['between 30:01\n50', 9, '30:01 between parts: write a time from 0:00 to 30:00'],
  ['between auto 1:00 x\n50', 19, 'x after the time between parts: write nothing else on this line'],
  ['between:auto 1:00\n50', 1, 'between:auto needs a space: write between, a space and then its value'],
  ['start:on 5\n50', 1, 'start:on needs a space: write start, a space and then its value'],
  ['grid 3\n50', 6, '3 after grid: write one of 1, 5, 10, in seconds'],
  ['gap:-5\n50', 1, 'gap:-5 needs a space: write gap, a space and then its value'],
  ['gap 5.5\n50', 5, '5.5 after gap: write a whole number from 1 to 60, in seconds'],
  ['gap 1234567\n50', 5, '1234567 after gap: write a whole number from 1 to 60, in seconds'],
  ['start on\n50', 8, 'nothing after start on: write one of 1, 5, 10, 15, 30, 60, in seconds'],
  ['start on  7\n50', 11, '7 after start on: write one of 1, 5, 10, 15, 30, 60, in seconds'],
  ['pool :25 m\n50', 6, ':25 m is not a pool: write its length and m or yd, as in pool 25 m'],
  ['between 1:00 auto\n50', 14, 'auto after the time between parts: write nothing else on this line'],
  [
    'lanes: 1-3\n50',
    1,
    'lanes and a number: write lanes 1-3: and a set after it, or for their paces a line a lane, as in lane 1 css 1:20',
  ],
  [
    'lanes:4\n50',
    1,
    'lanes and a number: write lanes 1-3: and a set after it, or for their paces a line a lane, as in lane 1 css 1:20',
  ],
  [
    'lanes4\n50',
    1,
    'lanes and a number: write lanes 1-3: and a set after it, or for their paces a line a lane, as in lane 1 css 1:20',
  ],
  [
    'lanes 1-3\n50',
    1,
    'lanes and a number: write lanes 1-3: and a set after it, or for their paces a line a lane, as in lane 1 css 1:20',
  ],
  ['3 round of\n  50', 1, '3 is less than one length: write 3 m if it is a distance, or count x distance'],
  ['3 rounds of 4\n  50', 13, '4 after the rounds: put the sets on the lines below, indented deeper'],
  ['3 rounds : 50\n50', 12, '50 after the rounds: put the sets on the lines below, indented deeper'],
  ['15:00 of 100 @ 2:00, 2:10', 22, 'one value a rep in a timed block: how many reps fit follows from one interval'],
  [
    '15:00 of 100 @ 2:00 hold 1:30, 1:31',
    32,
    'one value a rep in a timed block: how many reps fit follows from one interval',
  ],
  ['15:00 of 100 odds @ 2:00 evens @ 2:10', 19, 'odds and evens in a timed block: its reps are all alike'],
  ['15:00 of 100 x 5 @ 2:00', 14, 'x 5 among the words would be lost: write a line for each set, with its count first'],
  ['20:00 swim @ 1:30', 12, 'a swim by time cannot have an interval, rest or hold: its time is its interval'],
  ['break, 1:00\n50', 6, 'a time is missing after break: write break 1:30 and then what it is about'],
  ['talk 1.30\n50', 6, '1.30 is not a time: write 1:30 (or 1.3 for seconds)'],
  ['rest\n50', 1, 'a time is missing after rest: write rest 1:30 and then what it is about'],
  ['4 x\n50', 1, 'there is nothing under these rounds: write the sets that repeat below, indented deeper'],
  ['0 x\n  50', 1, 'a count of 0: write one from 1 to 500'],
  [
    'lane 1 1 # x, Ana\n50',
    8,
    '1 is neither a name nor a lane setting: write base 1:30, css 1:20, 5 swimmers or gap 10',
  ],
  [
    'lane 1 x5 swimmers\n50',
    8,
    'x5 swimmers is neither a name nor a lane setting: write base 1:30, css 1:20, 5 swimmers or gap 10',
  ],
  ['lane 1;x\n50', 6, '1;x is not a lane number: write one from 0 to 20'],
  ['pool 25 m x\n50', 6, '25 m x is not a pool: write its length and m or yd, as in pool 25 m'],
  ['start 19:30 x\n50', 7, '19:30 x is not a time of day: write 0:00 to 23:59, as in 19:30, or 7:30 pm'],
])('%j is told at column %i: %s', (text, column, message) => {
  expect(parseSession(text, null)).toEqual({ ok: false, faults: [{ line: 1, column, message }] });
});

function session(text: string): Session {
  const read = parseSession(text, null);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.value;
}

test.each<[setting: string, meaning: Partial<Session>]>([
  ['gap 1', { gap: 1000 }],
  ['gap 60', { gap: 60_000 }],
  ['gap: 5', { gap: 5000 }],
  ['GAP   7', { gap: 7000 }],
  ['between 30:00', { between: { time: 1_800_000, auto: false } }],
  ['between: auto 0:45', { between: { time: 45_000, auto: true } }],
  ['between auto  1:00', { between: { time: 60_000, auto: true } }],
  ['between auto :45', { between: { time: 45_000, auto: true } }],
  ['grid 1', { grid: 1000 }],
  ['start on 60', { startOn: 60_000, startsAt: null }],
  ['start: on 1', { startOn: 1000 }],
  ['pool 1 m', { pool: { length: 100, unit: 'm' } }],
  ['pool 100 m', { pool: { length: 10_000, unit: 'm' } }],
  ['pool 33.3yd', { pool: { length: 3330, unit: 'yd' } }],
  ['pool 25.05 M', { pool: { length: 2505, unit: 'm' } }],
])('%j sets %j', (setting, meaning) => {
  expect(session(`T\n${setting}\n100`)).toMatchObject(meaning);
});

test.each([
  ...['spool', 'starton 5', 'lanes', 'lanes easy', 'gap year', 'lane swim', 'startup', 'pools', 'gaps 5'],
  ...['yard2 pool', 'gap of 5', 'gap-year 5', 'gap:year', 'lanes easy 4', 'start at 7', 'finish or go on'],
])('%j is words, and no setting', (words) => {
  expect(session(`${words}\n50`).title).toBe(words);
  expect(session(`T\nMain\n50\n${words}\n50`).parts[1]!.name).toBe(words);
});

test.each<[lane: string, meaning: Partial<Session['lanes'][number]>]>([
  ['lane 0', { number: 0, swimmers: 1, css: null, base: 120_000 }],
  ['lane 20', { number: 20 }],
  ['lane: 4', { number: 4 }],
  ['lane 4: css 0:20', { css: 20_000 }],
  ['lane 4 :  base 10:00', { base: 600_000, baseFrom: 'written' }],
  ['lane 4,css 1:20', { css: 80_000 }],
  ['lane 4,   css 1:20', { css: 80_000 }],
  ['lane 4   ,   css 1:20', { css: 80_000 }],
  ['lane 4 css  1:20', { css: 80_000 }],
  [`lane 4 ${'Ana, '.repeat(19)}Bram`, { swimmers: 20 }],
  ['gap 7\nlane 4', { gap: 7000, ownGap: false, base: 120_000, baseFrom: 'assumed' }],
  ['grid 10\nlane 4 css 1:21', { base: 100_000, baseFrom: 'css' }],
  ['grid 1\nlane 4 css 1:21', { base: 96_000, baseFrom: 'css' }],
  ['lane 4 gap 1', { gap: 1000, ownGap: true }],
  ['lane 4 gap 60', { gap: 60_000, ownGap: true }],
  ['lane 4 1 swimmer', { swimmers: 1 }],
  ['lane 4 20swimmers', { swimmers: 20 }],
  ['lane 4 Ana  Maria,Bram', { names: ['Ana Maria', 'Bram'], swimmers: 2 }],
  ['lane 4 gaps', { names: ['gaps'] }],
  ['lane 4 big css', { names: ['big css'], css: null }],
  ['lane 4 C#', { names: ['C#'] }],
  ['lane 4 Ana #x', { names: ['Ana #x'] }],
])('%j is the lane %j', (lane, meaning) => {
  expect(session(`${lane}\n50`).lanes).toMatchObject([meaning]);
});

test.each<[text: string, times: number]>([
  ['3 rounds of', 3],
  ['3  rounds  of:', 3],
  ['3 Rounds : ', 3],
  ['3rounds', 3],
  ['3 times:', 3],
  ['3   times', 3],
  ['1 round', 1],
  ['1 round of', 1],
  ['3 x', 3],
  ['3 x :', 3],
  ['3×  ', 3],
])('%j repeats what stands under it', (text, times) => {
  expect(session(`${text}\n  50`).parts[0]!.items).toMatchObject([{ kind: 'rounds', times, items: [{ kind: 'set' }] }]);
});

test.each<[text: string, meaning: object]>([
  ['15:00   of   100s @ 2:00', { kind: 'block', time: 900_000, distances: [1000] }],
  ['90 of 50 @ 0:45', { kind: 'block', time: 90_000, distances: [500] }],
  ['15:00 easy, odds kick', { kind: 'timed-swim', time: 900_000, words: 'easy, odds kick' }],
  ['15:00 of what you like', { kind: 'timed-swim', words: 'of what you like' }],
  ['1:00:00 easy', { kind: 'timed-swim', time: 3_600_000 }],
  ['2 min easy', { kind: 'timed-swim', time: 120_000 }],
  ['4x50', { kind: 'set', reps: { counts: [4], distances: [500] } }],
  ['4   x 50', { kind: 'set', reps: { counts: [4] } }],
  ['4   * 50', { kind: 'set', reps: { counts: [4] } }],
  ['4*50', { kind: 'set', reps: { counts: [4] } }],
  ['100 xtra easy', { kind: 'set', words: 'xtra easy' }],
  ['100 -  200 – 100', { kind: 'set', reps: { kind: 'ladder', distances: [1000, 2000, 1000] } }],
  [`25${'-25'.repeat(19)}`, { kind: 'set', reps: { distances: new Array<number>(20).fill(250) } }],
  ['100 round the buoys', { kind: 'set', words: 'round the buoys' }],
  ['2 x 4 x 50', { kind: 'rounds', times: 2, items: [{ reps: { counts: [4], distances: [500] } }] }],
])('%j is %j', (text, meaning) => {
  expect(session(`${text}\n200`).parts[0]!.items[0]).toMatchObject(meaning);
});

test.each<[text: string, meaning: object]>([
  ['talk 0:00', { kind: 'talk', time: 0, words: '' }],
  ['talk 5 s turns', { kind: 'talk', time: 5000, words: 'turns' }],
  ['Break: 90, drink', { kind: 'break', time: 90_000, words: 'drink' }],
  ['rest 1:00', { kind: 'break', time: 60_000 }],
])('%j is the pause %j', (text, meaning) => {
  expect(session(`T\nMain\n50\n${text}\n200`).parts[0]!.items[1]).toMatchObject(meaning);
});
