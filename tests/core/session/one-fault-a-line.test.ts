/*
 * Which fault of a line is told where it has several, and what is said of lanes that are not known.
 */

import { describe, expect, test } from 'vitest';
import { parseSession } from '../../../app/core/session/parse.ts';

function said(text: string): readonly [line: number, message: string][] {
  const read = parseSession(text, null);
  return read.ok ? [] : read.faults.map(({ line, message }) => [line, message]);
}

const has = (words: string): unknown => expect.stringContaining(words);

describe('[faults] of several in a line', () => {
  test("the line's own is told, not where it stands", () => {
    expect(said('T\nPart\n50\n  0 x 50')).toEqual([[4, has('a count of 0 in every lane')]]);
    expect(said('T\nPart\n50\n  4 x 100 yd')).toEqual([[4, has('100 yd in a pool measured in m')]]);
  });

  test('where it is judged by a pool that is at fault itself, the next is told', () => {
    expect(said('pool 50 yards\nT\nPart\n50\n  4 x 100 yd')).toEqual([
      [1, has('is not a pool')],
      [5, has('deeper than the one above')],
    ]);
  });

  test('the first that would be lost among the words is told', () => {
    expect(said('50 free 1:00 2x')).toEqual([[1, has('1:00 among the words would be lost: put a time after @')]]);
    expect(said('50 free 2x 1:00')).toEqual([
      [1, has('2x among the words would be lost: write a line for each set, with its count first')],
    ]);
    expect(said('50 free 25 + 4x, easy')).toEqual([[1, has('25 + among')]]);
    expect(said('50 free 4x, 25 + easy')).toEqual([[1, has('4x among')]]);
  });

  test('the first that would be lost in a heading is told, a time whole', () => {
    const heading = (words: string) => said(`T\n${words}\n50`);
    expect(heading('Main 25:00')).toEqual([[2, has('25:00 in a heading would be lost')]]);
    expect(heading('Main 100 4x')).toEqual([[2, has('100 in a heading')]]);
    expect(heading('Main 4x 100')).toEqual([[2, has('4x in a heading')]]);
    expect(heading('Main 4x 1:00')).toEqual([[2, has('4x in a heading')]]);
  });

  test.each(['Level 0', 'Week 26', 'Group 12.5', 'Groups 7 and 8'])(
    '%s is a heading: its numbers are no distance',
    (words) => {
      expect(said(`T\n${words}\n50`)).toEqual([]);
    },
  );
});

describe('[faults] of lanes', () => {
  const SQUAD = 'lane 1 css 1:20, base 1:30\nlane 2 base 1:40\nT\n50\n';

  test('a ladder is judged rep by rep, in every lane', () => {
    expect(said(`${SQUAD}100-200-5000 @ base`)).toEqual([
      [5, has('in lane 1, rep 3: an interval of more than an hour')],
    ]);
    expect(said(`${SQUAD}100-3800 @ base`)).toEqual([[5, has('in lane 2, rep 2: an interval of more than an hour')]]);
    expect(said(`${SQUAD}25-50 hold css`)).toEqual([[5, has('lane 2 has no css to hold')]]);
    expect(said(`${SQUAD}25-50-75 @ base hold 0:50`)).toEqual([]);
  });

  test('so are the targets of a timed block', () => {
    expect(said(`${SQUAD}20:00 of 100s @ base hold css`)).toEqual([[5, has('lane 2 has no css to hold')]]);
  });

  test('all lanes that have no css where a line asks for one are named together', () => {
    const squad = 'lane 1 base 1:20\nlane 2 css 1:20\nlane 3 base 1:40\nlane 4 base 1:50\n';
    const three = 'give each a css, or write a time after hold';
    expect(said(`${squad}4 x 50 @ 1:00 hold css`)).toEqual([
      [5, has(`lanes 1, 3 and 4 have no css to hold: ${three}`)],
    ]);
    expect(said(`${squad}0/4/4/0 x 50 @ css`)).toEqual([
      [5, has('@ css in lane 3, which has no css: give the lane one')],
    ]);
    expect(said(`${squad}10:00 of 50s @ css`)).toEqual([[5, has('@ css in lanes 1, 3 and 4, which have no css')]]);
  });

  test('where they are not known a rep is named without one', () => {
    expect(said('lane 1 css 9\n5 x 100 @ 1:00 drop 15')).toEqual([
      [1, has('css')],
      [2, 'rep 5: an interval of 0:00 or less: write one above 0:00'],
    ]);
  });

  test('where it is not known how many there are, no lane is named and none is judged by its pace', () => {
    expect(said('lane1\n2:00 of 100s @ 2:05')).toEqual([
      [1, has('lane1 needs a space')],
      [
        2,
        'not one rep fits: a rep takes 2:05 and the block lasts 2:00: give the block 2:05 or more, or write shorter reps',
      ],
    ]);
    expect(said('lane1\n2:00 of 600s @ base')).toHaveLength(1);
    const judged = [expect.anything(), [2, has('not one rep fits: a rep takes 2:10')]];
    expect(said('lane1\n2:00 of 50/100 @ 2:10')).toEqual(judged);
    expect(said('lane1\n2:00 of 50 @ 1:00/2:10')).toEqual(judged);
    expect(said('lane1\n2:00 of 50 @ 2:10 hold 0:40/0:50')).toEqual(judged);
    expect(said('lane1\n4/5 x 50/75/100')).toHaveLength(1);
  });

  test('a list that does not fit them says how many there are', () => {
    expect(said('4/5 x 50')).toEqual([[1, has('a list of 2 for 1 lane: write one value for all')]]);
    expect(said('lane 1\nlane 2\n4/5/6 x 50')).toEqual([[3, has('a list of 3 for 2 lanes: write one value')]]);
  });

  test('with a rest, what is not full stroke is judged by its slower pace, also by the name of its part', () => {
    const hour = [[expect.any(Number), has('more than an hour')]];
    expect(said('lane 1 css 1:30\n3700 rest 10')).toEqual([]);
    expect(said('lane 1 css 1:30\n3700 kick rest 10')).toEqual(hour);
    expect(said('lane 1 css 1:30\nT\nSwim-down\n3700 rest 10')).toEqual(hour);
  });

  test('the reps of a timed block count as leaves', () => {
    const rounds = (times: number) => said(`${times} rounds\n  100 rounds\n    20:00 of 100s @ 2:00`);
    expect(rounds(100)).toEqual([]);
    expect(rounds(101)).toEqual([[1, has('more than 100000 leaves')]]);
  });

  test('intervals by a pace that drop are judged up to the last rep, of a ladder each by its own distance', () => {
    const base = (line: string) => said(`lane 1 base 1:40\n${line}`);
    expect(base('3 x 100 @ base drop 45')).toEqual([]);
    expect(base('4 x 100 @ base drop 45')).toEqual([[2, has('in lane 1, rep 4: an interval of 0:00 or less')]]);
    expect(base('50-200 @ base drop 60')).toEqual([]);
    expect(base('200-50 @ base drop 60')).toEqual([[2, has('in lane 1, rep 2: an interval of 0:00 or less')]]);
  });

  test('an interval that grows in a timed block is judged up to the last rep that fits', () => {
    expect(said('2:00:00 of 100s @ 59:40 add 15')).toEqual([]);
    expect(said('3:00:30 of 100s @ 59:50 add 15')).toEqual([[1, has('rep 3: an interval of more than an hour')]]);
  });

  test('where nothing is known of their pace a timed block counts as one leave', () => {
    const rounds = (times: number) => said(`lane 1 css 9\n${times} rounds\n  500 rounds\n    20:00 of 100s @ base`);
    expect(rounds(200)).toHaveLength(1);
    expect(rounds(201)).toEqual([
      [1, has('css')],
      [2, has('more than 100000 leaves')],
    ]);
  });

  test.each([
    ['50:00 of 25 @ 0:06', true],
    ['50:06 of 25 @ 0:06', false],
    ['50:05.9 of 25 @ 0:06', true],
  ])('%s: at most 500 reps fit in a block', (line, fits) => {
    expect(said(line)).toEqual(fits ? [] : [[1, has('more than 500 reps fit in the block')]]);
  });
});

describe('[faults] of a setting whose word is misspelt', () => {
  test.each([
    ['T\npol 25 yd\nstart 19:30\nlane 1\nSet\n4 x 50 @ 1:00', 2, 'pol is not a setting: write pool 25 yd'],
    ['T\nstrat 19:30\nfinish 20:30\nlane 1\nSet\n4 x 50 @ 1:00', 2, 'strat is not a setting: write start 19:30'],
    ['T\ngrd 10\npool 25 m\nlane 1\nSet\n4 x 50 @ 1:00', 2, 'grd is not a setting: write grid 10'],
    ['T\ngapp 5\nlane 1\nSet\n4 x 50 @ 1:00', 2, 'gapp is not a setting: write gap 5'],
  ])('%j has one, and the lines behind it none', (text, line, message) => {
    expect(said(text)).toEqual([[line, message]]);
  });

  test('no list is judged by the lane that is lost in it', () => {
    expect(said('T\nlane 1 css 1:20\nlnae 2 css 1:30\nSet\n4/4 x 50 @ 1:00/1:10')).toEqual([
      [3, 'lnae is not a setting: write lane 2 css 1:30'],
    ]);
  });

  test.each(['Starters', 'Pools and dreams', 'Group 12.5', 'Poole 50 m gala'])('%s is a title', (title) => {
    expect(said(`${title}\npool 25 m\n50`)).toEqual([]);
  });
});

describe('[faults] of a rest behind its time', () => {
  const line = (written: string) => said(`T\nSet\n3 rounds\n  4 x 50 @ 1:00\n  ${written}\n200 easy`);

  test.each(['1:00 rest between rounds', '30 s rest', '1 min rest', '2:00 break', '60 rest', '1:00 between rounds'])(
    '%s is not a swim',
    (written) => {
      expect(line(written)).toEqual([[5, has('is not a swim: write ')]]);
    },
  );

  test('it says how a rest between rounds is written, and so it is read', () => {
    expect(line('1:00 rest between rounds')).toEqual([
      [5, '1:00 rest is not a swim: write rest 1:00 (between rounds: under them, indented like their sets)'],
    ]);
    expect(line('rest 1:00 between rounds')).toEqual([]);
    expect(line('120 rest')).toEqual([[5, has('120 rest is not a swim: write rest 1:30')]]);
  });

  test('its own word goes before the time; “between” is no word for it', () => {
    expect(line('1:00 between rounds')).toEqual([[5, has('1:00 between is not a swim: write rest 1:00')]]);
    expect(line('2:00 break')).toEqual([[5, has('2:00 break is not a swim: write break 2:00')]]);
  });

  test.each(['10:00 easy swim', '10:00 restful swim', '100 breaststroke', '4 x 50 rest 15', '50 rest 20'])(
    '%s is one',
    (written) => {
      expect(line(written)).toEqual([]);
    },
  );
});
