/*
 * Lines for some lanes, notes and kit: who swims what, and what is refused.
 */

import { describe, expect, test } from 'vitest';
import { parseSession } from '../../../../app/core/session/parse.ts';
import { piecesOf } from '../../../../app/core/session/text/pieces.ts';
import { textWithCut } from '../../../../app/core/session/text/text-cut.ts';
import { makePlan } from '../../../../app/core/plan/make-plan.ts';
import type { Session } from '../../../../app/core/session/session.ts';

const SQUAD = 'lane 1 css 1:20\nlane 2 base 1:40\nlane 4 base 2:00\nTitle\nPart\n';

function session(lines: string, head = SQUAD): Session {
  const read = parseSession(`${head}${lines}\n`, null);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.value;
}

/** Each lane's leaves of each stretch, "distance@offset in seconds". */
function leaves(lines: string): readonly (readonly string[])[] {
  const plan = makePlan(session(lines), { text: '', lanesText: null });
  return plan.session.lanes.map((_, index) =>
    plan.stretches.flatMap(({ lanes }, stretch) =>
      (lanes[index]?.reps ?? []).map(({ distance, offset }) => `${stretch}: ${distance / 10}@${offset / 1000}`),
    ),
  );
}

function fault(lines: string): string {
  const read = parseSession(`${SQUAD}${lines}\n`, null);
  if (read.ok) return 'none';
  return read.faults.map(({ line, column, message }) => `${line}:${column} ${message}`).join(' | ');
}

describe('[lanes 1-3:]', () => {
  test('the others go on with what comes next at once', () => {
    expect(leaves('lanes 1-2: 2 x 100 @ 1:30\n50 @ 1:00')).toEqual([
      ['0: 100@0', '0: 100@90', '0: 50@180'],
      ['0: 100@0', '0: 100@90', '0: 50@180'],
      ['0: 50@0'],
    ]);
  });

  test('a range means the lanes of the session between its ends, and lane serves as well', () => {
    expect(leaves('lane 1-4: 50 @ 1:00').map((lane) => lane.length)).toEqual([1, 1, 1]);
    expect(leaves('lanes 1, 4: 50 @ 1:00\nlane 2: 100 @ 2:00')).toEqual([['0: 50@0'], ['0: 100@0'], ['0: 50@0']]);
  });

  test('lists have one value for each of these lanes', () => {
    expect(leaves('lanes 1, 4: 2/1 x 50/100 @ 1:00/2:00')).toEqual([['0: 50@0', '0: 50@60'], [], ['0: 100@0']]);
  });

  test.each([
    ['lanes 1 - 2 : 50', [1, 2]],
    ['lanes 1 ,2: 50', [1, 2]],
    ['lanes 1,\t2: 50', [1, 2]],
    ['LANES 1\u20132: 50', [1, 2]],
    ['lanes 1, 2-4: 50', [1, 2, 4]],
    ['lanes 2-2: 50', [2]],
    ['lane 4: 50 easy', [4]],
    ['lane 4:\n  50', [4]],
    ['lanes  1  -  2  ,  4  -  4  :  50', [1, 2, 4]],
    ['lane  4  :  50', [4]],
    ['lanes 1  -  4: 50', [1, 2, 4]],
  ])('%j is for lanes %j', (line, numbers) => {
    const [item] = session(line).parts[0]!.items;
    expect(item).toMatchObject({ lanes: { numbers } });
  });

  test('blocks, swims by time, ladders and rounds', () => {
    expect(leaves('lane 2: 2:00 of 50 @ 1:00\nlane 4: 1:30 easy\nlane 1: 50-100 @ 1:00\n25 @ 0:30')).toEqual([
      ['0: 50@0', '0: 100@60', '0: 25@120'],
      ['0: 50@0', '0: 50@60', '0: 25@120'],
      ['0: 0@0', '0: 25@90'],
    ]);
    expect(leaves('lane 2: 2 rounds\n  50 @ 1:00\n25 @ 0:30')).toEqual([
      ['0: 25@0'],
      ['0: 50@0', '0: 50@60', '0: 25@120'],
      ['0: 25@0'],
    ]);
  });

  test('rounds and a set on one line', () => {
    expect(leaves('lanes 1, 4: 2 x 1/2 x 50 @ 1:00\n25 @ 0:30')).toEqual([
      ['0: 50@0', '0: 50@60', '0: 25@120'],
      ['0: 25@0'],
      ['0: 50@0', '0: 50@60', '0: 50@120', '0: 50@180', '0: 25@240'],
    ]);
  });

  test('on a line of its own it is for what stands under it; a lanes line counts no depth', () => {
    const deep = 'lanes 1, 2:\n  2 x\n   2 x\n    2 x\n     2 x\n      50 @ 1:00\n25 @ 0:30';
    expect(leaves(deep).map((lane) => lane.length)).toEqual([17, 17, 1]);
  });

  test('after an untimed set of some lanes all come together', () => {
    expect(leaves('lane 1: 200 easy\n50 @ 1:00')).toEqual([['0: 200@0', '1: 50@0'], ['1: 50@0'], ['1: 50@0']]);
  });

  test('its reps and rounds can be cut in the text', () => {
    const text = `${SQUAD}lanes 1-2: 4/3 x 50 @ 1:00\nlane 4: 3 rounds\n  50 @ 1:00\n`;
    const pool = { length: 2500, unit: 'm' } as const;
    expect(textWithCut(text, pool, 6, 1)).toContain('lanes 1-2: 3/2 x 50');
    expect(textWithCut(text, pool, 7, 2)).toContain('lane 4: 1 round\n');
  });

  test('`lane N:` with what a lane has is its setting', () => {
    const head =
      'lane 1: css 1:20, 3 swimmers\nlane 2: Ana, Bram\nlane 3: base 1:30\nlane 4: 5 swimmers\nTitle\nPart\n';
    expect(session('50', head).lanes.map(({ number, swimmers }) => `${number}: ${swimmers}`)).toEqual([
      '1: 3',
      '2: 2',
      '3: 1',
      '4: 5',
    ]);
  });

  test('its number, its colon and its swimmers may stand apart', () => {
    const [lane] = session('50', 'lane  12  :  15  swimmers\nTitle\nPart\n').lanes;
    expect([lane!.number, lane!.swimmers]).toEqual([12, 15]);
    const [other] = session('50', 'lane 4: 5 swimmers, gap 7\nTitle\nPart\n').lanes;
    expect([other!.swimmers, other!.gap]).toEqual([5, 7000]);
  });

  test('a line that has lanes further on is a heading', () => {
    expect(session('Only lanes 1-2:\n50').parts[1]!.name).toBe('Only lanes 1-2');
  });

  test('targets are spread over these lanes too', () => {
    const plan = makePlan(session('lanes 1, 4: 100 @ 2:00 hold 1:20/1:30'), { text: '', lanesText: null });
    expect(plan.stretches[0]!.lanes.map(({ reps }) => reps.map(({ target }) => target))).toEqual([
      [80_000],
      [],
      [90_000],
    ]);
  });

  test('where a lane’s own line has no number, no list of lanes is judged', () => {
    const read = parseSession('lane 99 base 1:30\nlane 1\nTitle\nPart\nlanes 1-3: 50', null);
    expect(read.ok ? [] : read.faults.map(({ line }) => line)).toEqual([1]);
  });

  test('it ends the header', () => {
    expect(session('50', 'lane 1\nlane 2\nTitle\nlane 2: 100 @ 2:00\nPart\n').parts).toHaveLength(2);
  });

  test.each([
    ['lanes 1-3: 50', '6:7 3 is not a lane of this session: its lanes are 1, 2, 4'],
    ['lanes 4-1: 50', '6:7 4-1: a range of lanes goes from the lower to the higher'],
    ['lanes 3-4: 50', '6:7 3 is not a lane of this session: its lanes are 1, 2, 4'],
    ['lanes 10-12, 11-12: 50', '6:7 10 is not a lane of this session'],
    ['lanes 1-12: 50', '6:7 12 is not a lane of this session'],
    ['lanes 1, 2-14: 50', '6:10 14 is not a lane of this session'],
    ['lanes 1-2: base lane 4:', '6:12 a line cannot begin with base'],
    ['lane 4: 12  swimmers', '6:1 lane is a setting'],
    ['lanes 1, 3: 50', '6:10 3 is not a lane of this session: its lanes are 1, 2, 4'],
    ['lane 4: 4 swimmersx', '6:9 4 is less than one length'],
    ['lane 1: basement 50', '6:9 a line cannot begin with basement'],
    ['lane 4: 5swimmers', '6:1 lane is a setting'],
    ['lane 4: 1 swimmer', '6:1 lane is a setting'],
    ['lane 4: gap', '6:1 lane is a setting'],
    ['lane 2: Ana, Bram', '6:1 lane is a setting'],
    ['lane 2: Ana and Bram', '6:1 lane is a setting'],
    ['lanes 1-2:50', '6:1 lanes and a number'],
    ['lanes 1, 2: 2/3/4 x 50 @ 1:00', 'a list of 3 for 2 lanes'],
    ['lanes 1, 2: 0/0 x 50 @ 1:00', 'a count of 0 in every lane'],
    ['lanes 1, 2:\n50', '6:1 there is nothing under these lanes'],
    ['lanes 1, 2: 2 rounds\n50', '6:1 there is nothing under these rounds'],
    ['lanes 1, 2: talk 1:00', 'a talk or break for some lanes'],
    ['lanes 1, 2:\n  talk 1:00', '7:3 a talk for some lanes'],
    ['lanes 1, 2:\n  50\n  lane 1: 50', '8:3 lanes under lanes'],
    ['lanes 1, 2:\n  note: easy\n  50', '7:3 a note under a line of some lanes'],
    ['lanes 1-2 4 x 50', 'lanes and a number'],
    ['lanes 1 and 2: 4 x 50', 'lanes and a number'],
    ['lane 4 10 x 100 @ 1:20', 'lane is a setting'],
    ['lanes 1:50', 'lanes and a number'],
    ['lane 4: css 1:20', 'lane is a setting'],
  ])('a fault: %s', (lines, words) => {
    expect(fault(lines)).toContain(words);
  });
});

describe('[note and kit]', () => {
  const text =
    'Title\nnote: the clock is slow\nPart\nkit: paddles, pull buoy\n  50\n      note: 4 x 100 at 1:30, mind the hands\n  100\nKit: fins\nOther\n50\n';

  test('they belong to their part; one above the first heading to the session; words are free', () => {
    expect(session('', text).notes).toEqual([
      { kind: 'note', line: 2, partIndex: null, words: 'the clock is slow', atMargin: false },
      { kind: 'kit', line: 4, partIndex: 0, words: 'paddles, pull buoy', atMargin: true },
      { kind: 'note', line: 6, partIndex: 0, words: '4 x 100 at 1:30, mind the hands', atMargin: false },
      { kind: 'kit', line: 8, partIndex: 0, words: 'fins', atMargin: true },
    ]);
  });

  test('they set no margin and end no header', () => {
    const read = session(
      '',
      'note: first\nTitle\nnote: second\nlane 1 base 1:30\n    kit: fins\nPart\n      kit: fins\n  50 @ 1:00\n  50 @ 1:00\n',
    );
    expect([read.title, read.lanes.length, read.parts.length, read.notes.length]).toEqual(['Title', 1, 1, 4]);
  });

  test('at their part’s margin they are pieces of their own, deeper they belong to what stands above', () => {
    const written = 'Title\nPart\n50 easy\n  note: long\nkit: fins\n100\n';
    expect(piecesOf(written, session('', written)).map(({ first, last }) => `${first}-${last}`)).toEqual([
      '1-1',
      '2-2',
      '3-4',
      '5-5',
      '6-6',
    ]);
  });

  test('their words are as written but for runs of blanks; the colon may touch both', () => {
    const notes = (line: string) => session(`${line}\n50`).notes.map(({ kind, words }) => [kind, words]);
    expect(notes('KIT:   paddles,  fins  ')).toEqual([['kit', 'paddles, fins']]);
    expect(notes('note:x')).toEqual([['note', 'x']]);
    expect(notes('note:  #1 first')).toEqual([['note', '#1 first']]);
    expect(notes('kit : x')).toEqual([]);
    expect(notes('notes: x')).toEqual([]);
    expect(notes('Bring the kit: fins')).toEqual([]);
  });

  test.each([
    ['kit:', '6:1 there is nothing after kit: write kit: paddles, pull buoy'],
    ['Note:', '6:1 there is nothing after note: write note: mind the hands'],
    ['note:', '6:1 there is nothing after note'],
    ['2 rounds\n  note: x\n50', '6:1 there is nothing under these rounds'],
    ['note mind 4 x 50', 'in a heading would be lost'],
  ])('a fault: %s', (lines, words) => {
    expect(fault(lines)).toContain(words);
  });
});
