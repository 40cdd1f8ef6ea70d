// How many reps and rounds there now are, after cuts.

import { expect, test } from 'vitest';
import { standingIn } from '../../../../app/core/run/cuts/standing.ts';
import { targetsOf } from '../../../../app/core/run/view/outline.ts';
import { Deck, planOf } from '../../../support/run/deck.ts';

test('[cut] of rounds in rounds each line has what is left of it', () => {
  const deck = new Deck('3 rounds\n  2 rounds\n    2 x 50 @ 1:00').at(0, { do: 'cut', line: 1, n: 1 });
  expect(deck.view(1).lanes[0]!.next).toMatchObject({
    of: 2,
    rounds: [
      { round: 1, of: 2 },
      { round: 1, of: 2 },
    ],
  });
});

test('[cut] what is not cut stays as written', () => {
  const deck = new Deck('2 x 50 @ 1:00\n3 rounds\n  4 x 50 @ 1:00').at(0, { do: 'cut', line: 2, n: 2 });
  expect(deck.view(1).lanes[0]!.next).toMatchObject({ of: 2, rounds: [] });
});

test('[cut] a timed block keeps its number of reps, also in a round that is cut under way', () => {
  const last = (line: string) => {
    const deck = new Deck(`2 rounds\n  ${line}`).at(0, { do: 'go-to', line: 2, rounds: [2], rep: 1 });
    return deck.at(1, { do: 'start' }).at(20, { do: 'cut', line: 1, n: 1 }).view(21).lanes[0]!.last;
  };
  expect(last('4:00 of 50s @ 1:00')).toMatchObject({ of: 4, rep: { rep: 1, of: 4 } });
  expect(last('4 x 50 @ 1:00')).toMatchObject({ of: 1, rep: { rep: 1, of: 4 } });
});

test('[cut] every rounds line has its own count, inner ones in each round of the outer', () => {
  const two = new Deck('2 rounds\n  50 @ 1:00\n5 rounds\n  50 @ 1:00').at(0, { do: 'cut', line: 1, n: 1 });
  expect(two.view(1).lanes[0]!.next!.rounds).toMatchObject([{ round: 1, of: 1 }]);
  const inner = { do: 'go-to', line: 3, rounds: [2, 1], rep: 1 } as const;
  const deck = new Deck('2 rounds\n  3 rounds\n    50 @ 1:00\n  talk 0:30').at(0, inner).at(1, { do: 'start' });
  deck.at(2, { do: 'cut', line: 2, n: 1 });
  expect(deck.view(3).lanes[0]!.next!.rounds.map(({ of }) => of)).toEqual([2, 2]);
  // The first round is over and stays whole.
  expect(
    deck
      .at(4, { ...inner, rounds: [1, 1] })
      .view(5)
      .lanes[0]!.next!.rounds.map(({ of }) => of),
  ).toEqual([2, 3]);
});

test('[cut] rounds of talks alone are counted too', () => {
  const deck = new Deck('50 @ 1:00\n3 rounds\n  talk 0:30').at(0, { do: 'cut', line: 2, n: 1 });
  expect(deck.state.stretches.map(({ kind }) => kind)).toEqual(['swim', 'talk', 'talk']);
  deck.at(1, { do: 'cut', line: 2, n: 1 });
  expect(deck.state.stretches.map(({ kind }) => kind)).toEqual(['swim', 'talk']);
});

test('[cut] the round of a talk under way that has been cut counts no more', () => {
  const text = '2 rounds\n  2 rounds\n    talk 1:00\n    50 @ 1:00';
  const deck = new Deck(text).at(0, { do: 'go-to', line: 4, rounds: [1, 1], rep: 1 }).at(1, { do: 'start' });
  const rounds = () =>
    targetsOf(deck.view(81), new Set([0]))
      .get(4)!
      .rounds.map(({ of }) => of);
  expect(rounds()).toEqual([2, 2]);
  deck.at(80, { do: 'cut', line: 2, n: 1 });
  expect(rounds()).toEqual([2, 1]);
});

test('no rounds are taken for those of another line', () => {
  // The rounds of line 2 in round 13, and those of line 21 in round 3.
  const blank = '\n'.repeat(17);
  const text = `13 rounds\n  2 rounds\n    50 @ 1:00${blank}13 rounds\n  4 rounds\n    50 @ 1:00`;
  const { stretches } = planOf(text);
  const standing = standingIn(stretches);
  const seen = stretches
    .flatMap(({ lanes }) => lanes[0]!.reps)
    .map(({ set }) => {
      return [set.line, ...set.rounds.map((_, depth) => standing.rounds(set.rounds, depth))].join(' ');
    });
  expect([...new Set(seen)]).toEqual(['3 13 2', '22 13 4']);
});
