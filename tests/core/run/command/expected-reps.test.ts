/* What was seen, held against the run when the command comes. */

import { describe, expect, test } from 'vitest';
import { changedSince, touchesReps, type ExpectedReps } from '../../../../app/core/run/command/expected-reps.ts';
import type { Command } from '../../../../app/core/run/command/command.ts';
import { Deck } from '../../../support/run/deck.ts';

// Three lanes going from 10 s on, leaving every 60 s (lane 3: 90 s); rounds from line 8.
const TEXT = `Squad
lane 1
lane 2
lane 3

Main
2 x 50 @ 1:00/1:00/1:30
2 rounds
  2 x 25 @ 0:30
4 x 100 @ 2:00
`;

const SETS = 7;
const ROUNDS = 8;
const IN_ROUNDS = 9;

const going = () => new Deck(TEXT).at(0, { do: 'start' });

const of = (line: number, rep: number, ...rounds: number[]) => ({ line, rounds, rep });

function check(deck: Deck, seconds: number, command: Command, seen: ExpectedReps): string | null {
  return changedSince(deck.state, command, seen, seconds * 1000);
}

describe('[seen] while it is still so, nothing is said', () => {
  test.each<[Command]>([
    [{ do: 'skip' }],
    [{ do: 'sit-out' }],
    [{ do: 'shift', seconds: 5 }],
    [{ do: 'interval', seconds: 5 }],
    [{ do: 'repeat' }],
    [{ do: 'cut', line: SETS, n: 1 }],
  ])('%o', (command) => {
    const seen = { '1': of(SETS, 2), '2': of(SETS, 2), '3': of(SETS, 2) };
    expect(check(going(), 20, command, seen)).toBeNull();
  });
});

describe('[seen] a leave meanwhile', () => {
  const seen = { '1': of(SETS, 2), '2': of(SETS, 2), '3': of(SETS, 2) };

  test.each<[Command]>([
    [{ do: 'skip' }],
    [{ do: 'sit-out' }],
    [{ do: 'shift', seconds: 5 }],
    [{ do: 'interval', seconds: 5 }],
    [{ do: 'repeat' }],
    [{ do: 'cut', line: IN_ROUNDS, n: 1 }],
    [{ do: 'cut', line: ROUNDS, n: 1 }],
  ])('refuses %o with what has changed, for the lanes where it has', (command) => {
    const why = check(going(), 75, command, seen);
    expect(why).toBe(
      'Nothing was changed: meanwhile lane 1 has moved on to rep 1 of 2 of line 9 in round 1, ' +
        'lane 2 has moved on to rep 1 of 2 of line 9 in round 1.',
    );
  });

  test.each<[Command]>([
    [{ do: 'skip', lanes: [3] }],
    [{ do: 'stop' }],
    [{ do: 'start' }],
    [{ do: 'move-on' }],
    [{ do: 'finish' }],
    [{ do: 'lane-out', lanes: [1] }],
    [{ do: 'swimmers', n: 3 }],
    [{ do: 'mark' }],
    [{ do: 'undo' }],
    [{ do: 'cut', line: SETS, n: 1 }],
  ])('does not touch %o', (command) => {
    expect(check(going(), 75, command, seen)).toBeNull();
  });

  test('is none of a lane that was not named, or that the session has not', () => {
    expect(check(going(), 75, { do: 'skip' }, { '3': of(SETS, 2), '9': of(SETS, 2) })).toBeNull();
  });

  test('has happened from a quarter of a second before', () => {
    const deck = going();
    expect(check(deck, 69.749, { do: 'skip', lanes: [1] }, seen)).toBeNull();
    expect(check(deck, 69.75, { do: 'skip', lanes: [1] }, seen)).not.toBeNull();
  });

  test.each([
    ['another line', of(SETS, 1, 2)],
    ['another rep', of(IN_ROUNDS, 2, 2)],
    ['another round', of(IN_ROUNDS, 1, 1)],
    ['in no round', of(IN_ROUNDS, 1)],
    ['deeper in rounds', of(IN_ROUNDS, 1, 2, 1)],
  ])('is seen by everything that names a rep: %s', (_, shown) => {
    // Lane 1 comes to rep 1 of its second round.
    expect(check(going(), 165, { do: 'skip', lanes: [1] }, { '1': of(IN_ROUNDS, 1, 2) })).toBeNull();
    expect(check(going(), 165, { do: 'skip', lanes: [1] }, { '1': shown })).toBe(
      'Nothing was changed: meanwhile lane 1 has moved on to rep 1 of 2 of line 9 in round 2.',
    );
  });

  test('is told without a round where there is none, and with all where there are several', () => {
    expect(check(going(), 300, { do: 'skip', lanes: [1] }, { '1': of(SETS, 2) })).toMatch(/of line 10\.$/);
    const nested = new Deck('3 rounds\n  2 rounds\n    50 @ 1:00').at(0, { do: 'start' });
    expect(check(nested, 20, { do: 'skip' }, { '1': null })).toMatch(/of line 3 in round 1, round 2\.$/);
  });

  test('into another round is another rep', () => {
    const deck = going();
    expect(check(deck, 195, { do: 'skip', lanes: [1] }, { '1': of(IN_ROUNDS, 2, 2) })).toBeNull();
    expect(check(deck, 195, { do: 'skip', lanes: [1] }, { '1': of(IN_ROUNDS, 2, 1) })).not.toBeNull();
  });
});

describe('[seen] stopped lanes', () => {
  test('a skip on another screen is told to Resume and Rejoin', () => {
    const deck = going()
      .at(20, { do: 'stop' })
      .at(22, { do: 'skip', lanes: [2] });
    const seen = { '1': of(SETS, 2), '2': of(SETS, 2), '3': of(SETS, 2) };
    expect(check(deck, 25, { do: 'resume' }, seen)).toContain('lane 2 has moved on to rep 1 of 2 of line 9');
    expect(check(deck, 25, { do: 'rejoin', lanes: [2] }, seen)).not.toBeNull();
    expect(check(deck, 25, { do: 'resume', lanes: [1] }, seen)).toBeNull();
  });
});

describe('[seen] nothing to come', () => {
  test('none seen and none there agree; a rep seen where none is left does not', () => {
    const deck = going();
    // Lanes 1 and 2 leave for the last time, their fourth of line 10, at 610 s.
    expect(check(deck, 620, { do: 'repeat', lanes: [1] }, { '1': null })).toBeNull();
    expect(check(deck, 620, { do: 'repeat', lanes: [1] }, { '1': of(10, 4) })).toContain(
      'lane 1 has no more reps to come',
    );
    expect(check(deck, 300, { do: 'repeat', lanes: [1] }, { '1': null })).not.toBeNull();
  });

  test('while waiting nothing is pending, so that nothing that was seen can be dropped wrongly', () => {
    const cut: Command = { do: 'cut', line: SETS, n: 1 };
    expect(check(new Deck(TEXT), 5, cut, { '1': of(IN_ROUNDS, 1, 1) })).toBeNull();
  });
});

test('[seen] what drops, moves or repeats reps is sent with what was seen', () => {
  const about = (command: Command) => touchesReps(command);
  const touching: Command[] = [
    { do: 'skip' },
    { do: 'sit-out' },
    { do: 'repeat' },
    { do: 'shift', seconds: 5 },
    { do: 'interval', seconds: 5 },
    { do: 'cut', line: SETS, n: 1 },
    { do: 'resume' },
    { do: 'rejoin' },
  ];
  expect(touching.filter(about)).toEqual(touching);
  expect(([{ do: 'stop' }, { do: 'start' }, { do: 'lane-out', lanes: [1] }] as Command[]).filter(about)).toEqual([]);
});
