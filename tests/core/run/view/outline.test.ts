/*
 * What an outline of the session shows beside its lines: what is to come, what can be cut, and where to go.
 */

import { describe, expect, test } from 'vitest';
import { cutLeft, linesAhead, targetsOf } from '../../../../app/core/run/view/outline.ts';
import { Deck } from '../../../support/run/deck.ts';

/** Line 3: rounds of lines 4 and 5; line 6 a talk; line 8 and the break of line 10 in rounds of the second part. */
const TEXT = [
  'T',
  'Main',
  '3 rounds',
  '  2 x 50 @ 1:00',
  '  100 @ 2:00',
  'talk 1:00',
  'Down',
  '4 x 25 @ 0:30',
  '2 rounds',
  '  break 0:20',
].join('\n');

const ALL = new Set([0, 1]);

describe('[outline] lines ahead', () => {
  const ahead = (deck: Deck, seconds: number, parts: readonly number[] = [0, 1]) =>
    [...linesAhead(deck.view(seconds), new Set(parts))].sort((a, b) => a - b);

  test('waiting: all of those parts, rounds with what stands in them, talks and breaks too', () => {
    expect(ahead(new Deck(TEXT), 1)).toEqual([3, 4, 5, 6, 8, 9, 10]);
    expect(ahead(new Deck(TEXT), 1, [0])).toEqual([3, 4, 5, 6]);
    expect(ahead(new Deck(TEXT), 1, [1])).toEqual([8, 9, 10]);
    expect(ahead(new Deck(TEXT), 1, [])).toEqual([]);
  });

  test('going: what is pending, of whichever part, and the stretches after', () => {
    const going = () => new Deck(TEXT).at(0, { do: 'start' });
    expect(ahead(going(), 20)).toEqual([3, 4, 5, 6, 8, 9, 10]);
    // The last 50 leaves at 9:10, the last 100 at 10:10: 8:10 and 9:10 are the 50s of the third round.
    expect(ahead(going(), 560)).toEqual([3, 5, 6, 8, 9, 10]);
    expect(ahead(going(), 560, [])).toEqual([3, 5]);
    expect(ahead(going(), 615)).toEqual([6, 8, 9, 10]);
    expect(ahead(going().at(560, { do: 'move-on' }), 561, [1])).toEqual([8, 9, 10]);
  });

  test('done: none', () => {
    expect(ahead(new Deck(TEXT).at(0, { do: 'finish' }), 1)).toEqual([]);
  });

  test('a set of another lane is ahead too', () => {
    const deck = new Deck('lane 1\nlane 2\n1/0 x 50 @ 1:00\n0/2 x 50 @ 1:00').at(0, { do: 'start' });
    expect(ahead(deck, 20, [0])).toEqual([4]);
  });
});

describe('[cut] what of a line may still be cut', () => {
  test('all but one, less what is cut, in reps or rounds', () => {
    const left = (deck: Deck, line: number) => cutLeft(deck.view(1), line);
    expect(left(new Deck(TEXT), 3)).toEqual({ kind: 'rounds', most: 2 });
    expect(left(new Deck(TEXT), 8)).toEqual({ kind: 'reps', most: 3 });
    expect(left(new Deck(TEXT).at(0, { do: 'cut', line: 8, n: 2 }), 8)).toEqual({ kind: 'reps', most: 1 });
    expect(left(new Deck(TEXT).at(0, { do: 'cut', line: 8, n: 3 }), 8)).toBe(null);
    expect([left(new Deck(TEXT), 5), left(new Deck(TEXT), 6), left(new Deck(TEXT), 7)]).toEqual([null, null, null]);
  });
});

describe('[go-to] where a line can be gone to', () => {
  const targets = (deck: Deck, parts: ReadonlySet<number> = ALL) => [...targetsOf(deck.view(1), parts).entries()];

  test('each set with its rounds and reps; a rounds line by the first set in it', () => {
    const rounds = [{ of: 3, round: 1 }];
    expect(targets(new Deck(TEXT))).toEqual([
      [4, { line: 4, rounds, reps: 2 }],
      [3, { line: 4, rounds, reps: 1 }],
      [5, { line: 5, rounds, reps: 1 }],
      [8, { line: 8, rounds: [], reps: 4 }],
    ]);
    expect(targets(new Deck(TEXT), new Set([1])).map(([line]) => line)).toEqual([8]);
  });

  test('with as many rounds as now stand, and the reps of the lane with the most', () => {
    const cut = new Deck(TEXT).at(0, { do: 'cut', line: 3, n: 1 });
    expect(targets(cut)[0]).toEqual([4, { line: 4, rounds: [{ of: 2, round: 1 }], reps: 2 }]);
    const squad = new Deck('lane 1\nlane 2\nlane 3\n2/4/3 x 50 @ 1:00');
    expect(targets(squad)).toEqual([[4, { line: 4, rounds: [], reps: 4 }]]);
  });

  test('by its first passage, which a later cut leaves as it was', () => {
    const deck = new Deck('2 rounds\n  2 rounds\n    50 @ 1:00\n  talk 0:30').at(0, { do: 'start' });
    deck.at(140, { do: 'cut', line: 2, n: 1 });
    expect(targetsOf(deck.view(141), ALL).get(3)!.rounds).toEqual([
      { of: 2, round: 1 },
      { of: 2, round: 1 },
    ]);
  });

  test('rounds in rounds, outermost first', () => {
    const [first] = targets(new Deck('3 rounds\n  2 rounds\n    50 @ 1:00'));
    expect(first![1].rounds).toEqual([
      { of: 3, round: 1 },
      { of: 2, round: 1 },
    ]);
  });

  test('none once the session is done', () => {
    expect(targets(new Deck(TEXT).at(0, { do: 'finish' }))).toEqual([]);
  });
});
