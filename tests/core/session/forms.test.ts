/*
 * Every form of line with its meaning. A session of three lanes in a pool of 25 m stands around each.
 */

import { describe, expect, test } from 'vitest';
import { parseSession } from '../../../app/core/session/parse.ts';
import type { Item } from '../../../app/core/session/session.ts';

const LANES = 'lane 1 css 1:20, base 1:30\nlane 2 css 1:28\nlane 4 base 2:00\n';

function items(lines: string): readonly Item[] {
  const read = parseSession(`${LANES}Title\nPart\n${lines}\n`, null);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.value.parts[0]!.items;
}

function one(line: string): Item {
  return items(line)[0]!;
}

const three = <Value>(value: Value): Value[] => [value, value, value];
const time = (...ms: number[]): object[] => ms.map((each) => ({ kind: 'time', time: each }));
const base = (plus: number): object => ({ kind: 'base', plus });
const css = (plus: number): object => ({ kind: 'css', plus });
const repeat = (counts: number[], distances: number[]): object => ({ kind: 'repeat', counts, distances });
const every = (lanes: object[], step = 0): object => ({ kind: 'interval', lanes, step });
const each = (count: number, distance: number): object => repeat(three(count), three(distance));
const at = (ms: number, step = 0): object => every(three(time(ms)[0]!), step);

const FORMS: [line: string, meaning: object][] = [
  ['8 x 75 free, odds fast @ 1:20', { reps: each(8, 750), words: 'free, odds fast', timing: at(80_000), hold: null }],
  ['8x75free on 1:20 odds fast', { reps: each(8, 750), words: 'free odds fast', timing: at(80_000) }],
  ['8 x 50 on 200 pace @ 1:20 fast', { words: 'on 200 pace fast', timing: at(80_000) }],
  ['8 × 75 free @1:20, odds fast', { words: 'free odds fast', timing: at(80_000) }],
  ['8*75 free,@ 1:20', { reps: each(8, 750), words: 'free' }],
  ['8 X 75   FREE   style ON THE 1:20', { words: 'FREE style', timing: at(80_000) }],
  ['4 x 50 on the wall @ 1:00', { words: 'on the wall', timing: at(60_000) }],
  ['4 x 50 hold the streamline, rest easy @ 1:00', { words: 'hold the streamline, rest easy', timing: at(60_000) }],
  ['4 x 50 no-rest drop-in @ 1:00', { words: 'no-rest drop-in' }],
  ['150 steady @ 2:20', { reps: each(1, 1500), timing: at(140_000) }],
  [
    '8/7/6 x 100 @ 1:30/1:40/1:55',
    { reps: repeat([8, 7, 6], three(1000)), timing: every(time(90_000, 100_000, 115_000)) },
  ],
  ['6 x 100/100/75 @ 1:45', { reps: repeat(three(6), [1000, 1000, 750]), timing: at(105_000) }],
  ['2 / 0 / 1 x 100 m @ 1:45', { reps: repeat([2, 0, 1], three(1000)) }],
  [
    '100-200–300 - 200-100 @ base',
    { reps: { kind: 'ladder', distances: [1000, 2000, 3000, 2000, 1000] }, timing: every(three(base(0))) },
  ],
  ['100-200 steady @ 1:30/base/2:00', { timing: every([time(90_000)[0]!, base(0), time(120_000)[0]!]) }],
  ['200 - easy @ 4:00', { reps: each(1, 2000), words: '- easy' }],
  ['4 x 50 @base+10', { timing: every(three(base(10_000))) }],
  ['4 x 50 @ base - 5', { timing: every(three(base(-5000))) }],
  ['4 x 50 on base–0:05.5 easy', { timing: every(three(base(-5500))), words: 'easy' }],
  ['4 x 50 @ Base+0:10', { timing: every(three(base(10_000))) }],
  ['4 x 50 @ base - easy', { timing: every(three(base(0))), words: '- easy' }],
  ['5 x 100 @ 2:00 drop 5', { timing: at(120_000, -5000) }],
  ['5 x 100 @ 2:00, add 0:05.5, fast', { timing: at(120_000, 5500), words: 'fast' }],
  ['5/4/0 x 100 @ 2:00 drop 5 hold css', { timing: at(120_000, -5000), hold: three(css(0)) }],
  ['6 x 75 free rest 15', { timing: { kind: 'rest', lanes: three(15_000) }, words: 'free' }],
  ['6 x 75 rest 15/20/0:25.5 free', { timing: { kind: 'rest', lanes: [15_000, 20_000, 25_500] }, words: 'free' }],
  ['6 x 75 free 15 s rest', { timing: { kind: 'rest', lanes: three(15_000) }, words: 'free' }],
  [
    '6 x 75 free, 15/20/25 sec rest, easy',
    { timing: { kind: 'rest', lanes: [15_000, 20_000, 25_000] }, words: 'free easy' },
  ],
  [
    '6 x 75 back and free by 25 rest 15',
    { timing: { kind: 'rest', lanes: three(15_000) }, words: 'back and free by 25' },
  ],
  ['6 x 75 ri 15', { timing: { kind: 'rest', lanes: three(15_000) } }],
  ['4 x 50 hold 1:20', { timing: { kind: 'untimed' }, hold: time(80_000, 80_000, 80_000) }],
  ['4 x 50 hold 40.5 @ 1:30', { timing: at(90_000), hold: time(40_500, 40_500, 40_500) }],
  ['4 x 50 @ 1:30 hold 40/41/:42, fast', { hold: time(40_000, 41_000, 42_000), words: 'fast' }],
  ['1/1/0 x 50 hold css+3 rest 20', { hold: three(css(3000)), timing: { kind: 'rest', lanes: three(20_000) } }],
  ['1/1/0 x 50 hold css/css - 2/1:20', { hold: [css(0), css(-2000), time(80_000)[0]] }],
  ['4 x 50 hold 50 15 s rest', { hold: time(50_000, 50_000, 50_000), timing: { kind: 'rest', lanes: three(15_000) } }],
  [
    '20:00 of 100s free @ base',
    { kind: 'block', time: 1_200_000, distances: three(1000), words: 'free', timing: every(three(base(0))) },
  ],
  ['20 min of 100m rest 10', { kind: 'block', time: 1_200_000, distances: three(1000) }],
  ['90 of 100/100/75 @ 1:00', { kind: 'block', time: 90_000, distances: [1000, 1000, 750] }],
  ['15:00 easy swim', { kind: 'timed-swim', time: 900_000, words: 'easy swim' }],
  ['10 min choice', { kind: 'timed-swim', time: 600_000, words: 'choice' }],
  [':45 x-ray float', { kind: 'timed-swim', time: 45_000, words: 'x-ray float' }],
  ['1:00:00 easy', { kind: 'timed-swim', time: 3_600_000 }],
  ['300 easy', { reps: each(1, 3000), words: 'easy', timing: { kind: 'untimed' }, hold: null }],
  ['4 x 50 choice', { reps: each(4, 500), timing: { kind: 'untimed' } }],
  ['12.5 m sprint', { reps: each(1, 125), words: 'sprint' }],
  ['62.5', { reps: each(1, 625), words: '' }],
  ['100max effort', { reps: each(1, 1000), words: 'max effort' }],
  ['100 round the buoys', { reps: each(1, 1000), words: 'round the buoys' }],
  ['200 time trial', { reps: each(1, 2000), words: 'time trial' }],
  ['talk 1:30 turns: 4 x push off at 1:00', { kind: 'talk', time: 90_000, words: 'turns: 4 x push off at 1:00' }],
  ['Talk: 2 min', { kind: 'talk', time: 120_000, words: '' }],
  ['break 2:00 drink', { kind: 'break', time: 120_000, words: 'drink' }],
  ['rest :30', { kind: 'break', time: 30_000, words: '' }],
  ["2' easy", { kind: 'timed-swim', time: 120_000, words: 'easy' }],
  ["20' of 100s @ base", { kind: 'block', time: 1_200_000 }],
  ["4 x 50 by 50's", { words: "by 50's", timing: { kind: 'untimed' } }],
  ['4 x 100 easy by 25s', { words: 'easy by 25s' }],
];

describe('forms of a line', () => {
  test.each(FORMS)('[lines of a part] %s', (line, meaning) => {
    expect(one(`${line}\n4 x 50`)).toMatchObject(meaning);
  });

  test.each(['3 rounds', '3 rounds of', '3 times', '3 x', '3 ×', '3x:', '3 Rounds of:', '- 3 rounds'])(
    '[rounds] %s',
    (line) => {
      expect(items(`${line}\n    50 easy\n    2 x\n\t  100\n25`)).toMatchObject([
        {
          kind: 'rounds',
          times: 3,
          items: [{ words: 'easy' }, { kind: 'rounds', times: 2, items: [{ reps: each(1, 1000) }] }],
        },
        { kind: 'set' },
      ]);
    },
  );

  test('[rounds] `3 x 4 x 50` is 3 rounds over 4 x 50', () => {
    const [rounds] = items('3 x 4 x 50 free @ 1:00');
    expect(rounds).toMatchObject({ kind: 'rounds', times: 3, line: 6, column: 1 });
    expect(rounds).toMatchObject({
      items: [{ kind: 'set', reps: each(4, 500), line: 6, column: 5, timing: at(60_000) }],
    });
  });

  test('[rounds] rounds stand in rounds, to depth 4', () => {
    const lines = '2 x\n 2 x\n  2 x\n   2 x\n    50 easy';
    expect(JSON.stringify(items(lines)).match(/"times":2/g)).toHaveLength(4);
  });

  test.each([
    ['1:30', 90_000],
    ["1'30", 90_000],
    ['1’30”', 90_000],
    ["1'30''", 90_000],
    ['45"', 45_000],
    ["45''", 45_000],
    ['28.5"', 28_500],
    ["2'", 120_000],
    ['45 secs', 45_000],
    ['45 seconds', 45_000],
    ['2 mins', 120_000],
    ['2 minutes', 120_000],
    ['01:30', 90_000],
    ['12:05', 725_000],
    ['0:59:59', 3_599_000],
    [':45', 45_000],
    ['1:12.5', 72_500],
    ['90', 90_000],
    ['28.5', 28_500],
    ['90 s', 90_000],
    ['90sec', 90_000],
    ['1:30 sec', 90_000],
    ['2 min', 120_000],
    ['2.5min', 150_000],
    ['99', 99_000],
  ])('[TIME] %s', (text, ms) => {
    expect(one(`50 @ ${text}`)).toMatchObject({ timing: at(ms), words: '' });
  });

  test.each([
    '- 50 easy',
    '-50 easy',
    '• 50 easy',
    'a) 50 easy',
    '1) 50 easy',
    '– 50 easy',
    '50 easy # 4 x 50',
    '50 easy #',
  ])('[text] %s is 50 easy', (line) => {
    expect(one(line)).toMatchObject({ reps: each(1, 500), words: 'easy' });
  });

  test('[text] a # glued to words is no comment', () => {
    expect(one('50 number #3')).toMatchObject({ words: 'number #3' });
  });
});
