// How many reps and rounds there now are, after cuts.

import { expect, test } from 'vitest';
import { Deck } from '../../../support/deck.ts';

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
