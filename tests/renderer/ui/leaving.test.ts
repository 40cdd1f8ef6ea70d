/*
 * The swimmers who still follow their lead, as the wall and the coach's window both say it.
 */

import { describe, expect, test } from 'vitest';
import type { Command } from '../../../app/core/run/command/command.ts';
import { view } from '../../../app/core/run/view.ts';
import { moreWords } from '../../../renderer/desk/lanes/lane-text.ts';
import { lastAbandoned } from '../../../renderer/ui/leaving.ts';
import { wallFace } from '../../support/wall/wall-face.ts';
import { runOf } from '../../support/coach/coach-run.ts';

type Given = readonly (readonly [number, Command])[];

/** Who follows at a time (in s), by the wall and by the coach's window; '' for nobody. */
function followers(text: string, given: Given, seconds: number): readonly string[] {
  const now = view(runOf(text, ...given), seconds * 1000);
  const abandonedAt = lastAbandoned(given.map(([at, command]) => ({ at, command })));
  const { dots } = wallFace(now, 0, 'stretch', abandonedAt).lanes[0]!;
  const desk = moreWords(now, now.lanes[0]!, 'stretch', abandonedAt);
  return [dots ? `${dots.away} of ${dots.of} away` : '', /\d of \d away/.exec(desk)?.[0] ?? ''];
}

const BOTH = (away: number): readonly string[] => [`${away} of 6 away`, `${away} of 6 away`];
const NOBODY = ['', ''];

test('[R2] in a lane’s row a tail is said with its set where the row is about another by then', () => {
  const text = 'lane 1, 6 swimmers\nSet\n4 x 50 fast @ 1:00\nOther\n4 x 25 @ 1:00';
  const words = (seconds: number, ...given: Given): string => {
    const now = view(runOf(text, [0, { do: 'start' }], ...given), seconds * 1000);
    return moreWords(now, now.lanes[0]!, 'stretch', -Infinity);
  };
  expect(words(17)).toMatch(/^leaving now: 2 of 6 away/);
  expect(words(17, [16_000, { do: 'move-on' }])).toBe('the tail of 50 fast: 2 of 6 away');
  expect(words(17, [16_000, { do: 'restart' }])).toBe('the tail of 50 fast: 2 of 6 away');
});

describe('swimmers who follow their lead', () => {
  const SETS = 'start on 1\nlane 1, 6 swimmers\nSet\n4 x 50 @ 1:00\nOther\n4 x 25 @ 1:00';

  test('[R2] go on where the next stretch is started while they leave', () => {
    const text = SETS.replace('4 x 50', '50');
    const given: Given = [
      [0, { do: 'start' }],
      [12_000, { do: 'start' }],
    ];
    // They left at 10 s, 5 s apart; the next leave is at 22 s.
    expect(followers(text, given, 20)).toEqual(BOTH(3));
    expect(followers(text, given, 22)).toEqual(BOTH(1));
  });

  test.each<Command>([{ do: 'move-on' }, { do: 'restart' }, { do: 'go-to', line: 6, rep: 2 }])(
    'of a set that was given up are said until the next countdown, and then no more: %j',
    (command) => {
      const left: Given = [
        [0, { do: 'start' }],
        [14_000, command],
      ];
      expect(followers(SETS, left, 14)).toEqual(BOTH(1));
      const started: Given = [...left, [18_000, { do: 'start' }]];
      expect(followers(SETS, started, 19)).toEqual(NOBODY);
      expect(followers(SETS, started, 29)).toEqual(BOTH(1));
    },
  );

  test('of a set that was left for a break are said in the break', () => {
    const given: Given = [
      [0, { do: 'start' }],
      [14_000, { do: 'move-on' }],
    ];
    expect(followers(SETS.replace('Other', 'break 1:00\nOther'), given, 16)).toEqual(BOTH(2));
  });
});
