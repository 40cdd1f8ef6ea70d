// Whether a cut takes the rest of something begun: half a round swum is worth less than a whole one left out.

import { describe, expect, test } from 'vitest';
import { takesBegun } from '../../../../app/core/run/cuts/begun.ts';
import { Deck } from '../../../support/run/deck.ts';

/** Whether cutting the last n of a line then takes the rest of what a lane has begun. */
function takes(deck: Deck, seconds: number, line: number, n: number): boolean {
  const before = deck.settled(seconds);
  return takesBegun(before, deck.at(seconds, { do: 'cut', line, n }).state, line);
}

const started = (text: string): Deck => new Deck(text).at(0, { do: 'start' });

describe('of rounds', () => {
  test('the one that is being swum, and none after it', () => {
    const rounds = '3 rounds\n  4 x 50 @ 1:00';
    expect(takes(new Deck(rounds), 1, 1, 2)).toBe(false);
    expect(takes(started(rounds), 20, 1, 1)).toBe(false);
    expect(takes(started(rounds), 260, 1, 1)).toBe(false);
    expect(takes(started(rounds), 260, 1, 2)).toBe(true);
  });

  test('not one of which all has left', () => {
    expect(takes(started('2 rounds\n  4 x 50 @ 1:00'), 200, 1, 1)).toBe(false);
  });

  test('one begun in a stretch that is over', () => {
    const text = '3 rounds\n  2 x 50 @ 1:00\n  talk 0:30\n  2 x 25 @ 0:30';
    const second = { do: 'go-to', line: 2, rounds: [2], rep: 1 } as const;
    // The talk of the second round, from 2:11 on, and after it the wait for its 25s.
    expect(takes(new Deck(text).at(0, second).at(1, { do: 'start' }), 140, 1, 1)).toBe(false);
    expect(takes(new Deck(text).at(0, second).at(1, { do: 'start' }), 140, 1, 2)).toBe(true);
    const waiting = new Deck(text).at(0, second).at(1, { do: 'start' });
    expect(waiting.settled(200)).toMatchObject({ phase: 'waiting' });
    expect(takes(waiting, 200, 1, 2)).toBe(true);
  });

  test('of rounds in rounds: of the outer line the outer round, of the inner one the inner round', () => {
    // Rounds of two rounds of 2 x 50: the first of the second begins at 4:10, the second of it at 6:10.
    const text = '3 rounds\n  2 rounds\n    2 x 50 @ 1:00';
    expect(takes(started(text), 320, 1, 2)).toBe(true);
    expect(takes(started(text), 320, 1, 1)).toBe(false);
    expect(takes(started(text), 320, 2, 1)).toBe(false);
    expect(takes(started(text), 380, 2, 1)).toBe(true);
  });

  test('round 1 of round 12 is not round 11 of round 2', () => {
    // The twelfth of the first round leaves at 11:10.
    expect(takes(started('11 rounds\n  12 x 50 @ 1:00'), 671, 2, 11)).toBe(false);
    expect(takes(started('11 rounds\n  12 rounds\n    50 @ 1:00'), 671, 2, 11)).toBe(false);
  });
});

describe('of reps', () => {
  test('one that another lane has begun, and none before', () => {
    const text = 'lane 1\nlane 2\n4 x 50 @ 0:30/1:30';
    // At 0:45 lane 1 has left two, lane 2 one.
    expect(takes(started(text), 45, 3, 2)).toBe(false);
    expect(takes(started(text), 45, 3, 3)).toBe(true);
  });

  test('none of a single lane, though the stretch loses what has left too', () => {
    expect(takes(started('4 x 50 @ 1:00'), 71, 1, 3)).toBe(false);
    expect(takes(started('2 rounds\n  4 x 50 @ 1:00'), 71, 2, 2)).toBe(false);
  });

  test('none that left before a restart: they are swum again, whole', () => {
    const restarted = () => started('4 x 50 @ 1:00').at(80, { do: 'restart' });
    expect(takes(restarted(), 85, 1, 3)).toBe(false);
    expect(takes(restarted().at(81, { do: 'start' }), 100, 1, 3)).toBe(false);
  });

  test('not one that is swum again', () => {
    expect(takes(started('lane 1\nlane 2\n4 x 50 @ 1:00').at(71, { do: 'repeat' }), 72, 3, 2)).toBe(false);
  });
});
