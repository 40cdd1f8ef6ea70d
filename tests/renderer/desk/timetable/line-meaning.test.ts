/*
 * What a line means in each lane, for who rests on it with the pointer.
 */

import { describe, expect, test } from 'vitest';
import { lineMeaning } from '../../../../renderer/desk/timetable/line-meaning.ts';
import { planOf } from '../../../support/run/deck.ts';

const TEXT = `Harbour
lane 1 css 1:20, base 1:30
lane 2 base 1:40
lane 3 base 2:00

Main set
8/7/0 x 75 free @ 1:10/1:20/1:30
3 rounds
  100 steady @ base
  4 x 50 fast @ 0:50/1:00/1:10 hold 0:40
talk 1:30 turns
lanes 1-2: 2 x 100 @ 2:00
5 x 100 @ 2:00 drop 5
100-200-100 @ base
15:00 easy swim
6 x 75 rest 15
300 easy
`;
const plan = planOf(TEXT);

function meant(words: string): readonly string[] {
  const line = TEXT.split('\n').findIndex((each) => each.includes(words)) + 1;
  const { lanes } = lineMeaning(plan, line)!;
  return lanes.map((lane) => [lane.swims, lane.interval, lane.target, lane.leaves, lane.takes].join(' | '));
}

describe('[meaning] a set', () => {
  test('is said lane by lane: what it swims, on what, when it leaves, how long it takes, or that it sits out', () => {
    expect(meant('8/7/0')).toEqual([
      '8 x 75 | 1:10 |  | 0:00, 1:10, 2:20 to 8:10 | 9:20',
      '7 x 75 | 1:20 |  | 0:00, 1:20, 2:40 to 8:00 | 9:20',
      ' |  |  |  | ',
    ]);
  });

  test('in rounds is that of the first, with its targets, and says of how many', () => {
    expect(meant('4 x 50 fast')[0]).toBe('4 x 50 | 0:50 | 0:40 | 10:50, 11:40, 12:30, 13:20 | 3:20');
    expect(lineMeaning(plan, 10)).toMatchObject({ words: '4 x 50 fast', note: 'As in the first of 3 rounds.' });
  });

  test('for some lanes is nothing for the others', () => {
    expect(meant('lanes 1-2:').map((lane) => lane.startsWith('2 x 100'))).toEqual([true, true, false]);
  });

  test('whose reps differ has all their intervals', () => {
    expect(meant('drop 5')[0]).toContain('2:00, 5 s less each time, down to 1:40');
    expect(meant('100-200-100')[1]).toContain('100 on 1:40, 200 on 3:20');
  });

  test('by a rest, by time or without an interval is marked as what it is', () => {
    expect(meant('15:00 easy')[0]).toMatch(/^15:00 \| for 15:00 \| {2}\| \d+:\d\d \| 15:00$/);
    expect(meant('6 x 75 rest')[0]).toMatch(/^6 x 75 \| ≈1:\d\d .* ≈\d+:\d\d$/);
    expect(meant('300 easy')[0]).toMatch(/^300 \| {2}\| {2}\| \d+:\d\d(:\d\d)? \| ≈\d+:\d\d$/);
  });
});

test('[meaning] a talk says what follows, and a line on which nothing happens means nothing', () => {
  expect(lineMeaning(plan, 11)).toEqual({
    words: 'talk 1:30 turns',
    note: 'Nobody swims; what follows waits for your word.',
    lanes: [],
  });
  expect([lineMeaning(plan, 1), lineMeaning(plan, 6), lineMeaning(plan, 8), lineMeaning(plan, 99)]).toEqual([
    null,
    null,
    null,
    null,
  ]);
});
