/*
 * What stands on the printed sheets.
 */

import { describe, expect, test } from 'vitest';
import { boardParts, laneSheets, type SheetPart } from '../../../../renderer/desk/paper/sheet-lines.ts';
import { runOf } from '../../../support/coach/coach-run.ts';

const planOf = (lines: string) =>
  runOf(`lane 1 base 1:30\nlane 2 base 1:40\nlane 3 base 1:40\nlane 4 base 2:00\nSet\n${lines}`).plan;
const told = ([part]: readonly SheetPart[]): readonly unknown[] =>
  part!.lines.map(({ words, depth, timings }) => [
    `${'  '.repeat(depth)}${words}`,
    ...timings.map(({ lanes, words: timing }) => `${lanes}|${timing}`),
  ]);
const board = (lines: string): readonly unknown[] => told(boardParts(planOf(lines)));
const sheet = (lane: number, lines: string): readonly unknown[] => told(laneSheets(planOf(lines))[lane - 1]!.parts);

describe('[paper] the whiteboard', () => {
  test('an interval that all lanes share stands once, and in full', () => {
    expect(board('10 x 100 @ 1:40 drop 2')).toEqual([['10 x 100', '|on 1:40, 2 s less each time, down to 1:22']]);
  });

  test('where lanes differ, those alike have one row', () => {
    expect(board('4 x 100 @ base')).toEqual([['4 x 100', 'lane 1|on 1:30', 'lanes 2 and 3|on 1:40', 'lane 4|on 2:00']]);
  });

  test('a line for some lanes names them once, as a range, and says nothing of the others', () => {
    expect(board('lanes 1-3: 4 x 50 @ 1:00\n100 @ 2:00')).toEqual([
      ['lanes 1–3: 4 x 50', '|on 1:00'],
      ['100', '|on 2:00'],
    ]);
    expect(board('lanes 2, 4:\n  2 rounds\n    50 @ 1:00\n100 @ 2:00').slice(0, 3)).toEqual([
      ['lanes 2 and 4'],
      ['  2 rounds'],
      ['    50', '|on 1:00'],
    ]);
  });
});

describe('[paper] a lane’s sheet', () => {
  const lines = 'lane 4: 2 x 50 @ 2:00\nlanes 1-3:\n  2 rounds\n    8/7/6 x 75 @ 1:30\ntalk 1:00 turns\n300 choice';

  test('has what that lane swims, without naming lanes', () => {
    expect(sheet(2, lines).slice(0, 3)).toEqual([['2 rounds'], ['  7 x 75', '|on 1:30'], ['talk 1:00 turns']]);
    expect(sheet(4, lines).slice(0, 2)).toEqual([['2 x 50', '|on 2:00'], ['talk 1:00 turns']]);
  });

  test('says of an untimed set about how long it takes', () => {
    expect(sheet(1, '300 choice')).toEqual([['300 choice', expect.stringMatching(/^\|about \d:\d\d$/)]]);
  });

  test('has its own distance of a timed block', () => {
    expect(sheet(2, '20:00 of 100/75/75/50s free @ 2:00')[0]).toEqual(['20:00 of 75s free', '|on 2:00']);
  });
});
