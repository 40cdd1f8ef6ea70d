/* What the wall says of cuts, of estimates, of what begins by itself, and of swimmers who follow. */

import { describe, expect, test } from 'vitest';
import type { Command } from '../../../../app/core/run/command/command.ts';
import type { ClockChoice } from '../../../../app/core/run/readings.ts';
import { view } from '../../../../app/core/run/view.ts';
import { lastAbandoned } from '../../../../renderer/ui/leaving.ts';
import { wallFace, type WallFace } from '../../../support/wall/wall-face.ts';
import { Deck } from '../../../support/run/deck.ts';

const OPENED_AT = (19 * 60 + 30) * 60_000;

function face(deck: Deck, seconds: number, choice: ClockChoice = 'stretch'): WallFace {
  return wallFace(view(deck.state, Math.round(seconds * 1000)), OPENED_AT, choice);
}

describe('after a cut', () => {
  const EIGHTS = 'lane 1\nlane 2\n8 x 50 fast @ 1:00\n4 x 25 easy @ 1:00\n';

  test('strips count the reps that there now are: 5 of 5 where 3 of 8 were cut', () => {
    const deck = new Deck(EIGHTS).at(0, { do: 'start' }).at(15, { do: 'cut', line: 3, n: 3 });
    expect(face(deck, 20).lanes[0]).toMatchObject({ state: 'waiting', rep: '2 of 5' });
    expect(face(deck, 251).lanes[0]).toMatchObject({ state: 'leaving', rep: '5 of 5' });
    expect(face(deck, 20).head.set).toBe('5 x 50 fast');
  });

  test('what had left keeps its place: rep 7 of 8 with 3 cut is 7 of 7, of a set of 7', () => {
    const deck = new Deck(EIGHTS).at(0, { do: 'start' }).at(371, { do: 'cut', line: 3, n: 3 });
    expect(face(deck, 371.5).lanes[0]).toMatchObject({ state: 'leaving', rep: '7 of 7' });
    expect(face(deck, 371.5).head.set).toBe('7 x 50 fast');
  });

  test('before the start too: the lane starts with so many, and the list says the same', () => {
    const deck = new Deck(EIGHTS).at(0, { do: 'cut', line: 3, n: 3 });
    const shown = face(deck, 1);
    expect(shown.lanes[0]).toMatchObject({ state: 'first', words: '5 x 50 fast' });
    expect(shown.callout?.lines).toEqual(['5 x 50 fast', '4 x 25 easy']);
  });

  const ROUNDS = 'Main set\n3 rounds\n  150 steady @ 2:00\n  4 x 50 fast @ 1:00\n';

  test('rounds as well, in the strips and in the head', () => {
    const deck = new Deck(ROUNDS).at(0, { do: 'start' }).at(20, { do: 'cut', line: 2, n: 1 });
    const shown = face(deck, 30);
    expect(shown.head).toMatchObject({ title: 'Main set, round 1 of 2', set: '2 rounds: 150 steady, 4 x 50 fast' });
    expect(shown.lanes[0]).toMatchObject({ round: 'round 1 of 2', rep: '1 of 4' });
    const onOneLine = new Deck('Main set\n3 x 4 x 50 fast @ 1:00\n')
      .at(0, { do: 'start' })
      .at(20, { do: 'cut', line: 2, n: 1 });
    expect(face(onOneLine, 30).head.set).toBe('2 rounds: 4 x 50 fast');
    expect(face(onOneLine, 30).lanes[0]).toMatchObject({ round: 'round 1 of 2', rep: '2 of 4' });
  });
});

describe('lanes with sets of their own', () => {
  const APART = 'lane 1\nlane 2\nlane 3\nSet\nlanes 1-2: 4 x 100 @ 2:00\nlane 3: 2 x 100 @ 2:00\n50 easy @ 1:00';
  const BOTH = 'lanes 1 and 2: 4 x 100; lane 3: 2 x 100';

  test('the head says them as swum at the same time, and then what comes after both', () => {
    const deck = new Deck(APART).at(0, { do: 'start' });
    expect(face(deck, 20).head).toMatchObject({ set: BOTH, then: 'then 50 easy' });
  });

  test('the banner of a stop names all of them', () => {
    const deck = new Deck(APART).at(0, { do: 'start' }).at(20, { do: 'stop' });
    expect(face(deck, 25).callout).toMatchObject({ title: 'stopped', lines: [BOTH] });
  });
});

describe('where the reps of a set differ in distance', () => {
  const LADDER = 'lane 1\nlane 2\n50-100-150 free @ 1:00\n4 x 50 easy @ 1:00\n';

  test('[strip] each says its own, before which of how many it is, and its words without it', () => {
    const deck = new Deck(LADDER).at(0, { do: 'start' });
    expect(face(deck, 11.5).lanes[0]).toMatchObject({ state: 'leaving', rep: '50, 1 of 3', words: 'free' });
    expect(face(deck, 20).lanes[0]).toMatchObject({ state: 'waiting', rep: '100, 2 of 3', words: 'free' });
    expect(face(deck, 20).head.set).toBe('50-100-150 free');
    expect(face(deck, 140).lanes[0]).toMatchObject({ rep: '1 of 4', words: '50 easy' });
  });

  test('[strip] a stopped lane too; but before the start the distance that it begins with', () => {
    const deck = new Deck(LADDER).at(0, { do: 'start' }).at(20, { do: 'stop', lanes: [1] });
    expect(face(deck, 25).lanes[0]).toMatchObject({ state: 'stopped', rep: '100, 2 of 3' });
    expect(face(new Deck(LADDER), 0).lanes[0]).toMatchObject({ state: 'first', rep: '', words: '' });
    expect(face(new Deck(LADDER), 0).lanes[0]!.interval).toMatch(/^50 on /);
  });

  test('of a ladder that is gone on with, the distance stands with its words, as nothing is swum yet', () => {
    const deck = new Deck(LADDER).at(0, { do: 'go-to', line: 3, rep: 2 });
    expect(face(deck, 1).lanes[0]).toMatchObject({ state: 'first', rep: '2 of 3', words: '100 free' });
  });
});

describe('[honest] estimates are marked', () => {
  const REST = 'start 19:30\nfinish 20:00\nlane 1 base 1:30\n2 x 100 free rest 0:20\n';

  test('an interval worked out from a rest, and when the lane is in after it', () => {
    const deck = new Deck(REST).at(0, { do: 'start' });
    expect(face(deck, 5).lanes[0]!.interval).toMatch(/^on ≈\d:\d\d$/);
    const last = face(deck, 150).lanes[0]!;
    expect(last).toMatchObject({ state: 'finished' });
    expect(last.word).toMatch(/^in by ≈\d:\d\d$/);
  });

  test('the end of the session where it rests on one, and what is in hand with it', () => {
    const deck = new Deck(REST).at(0, { do: 'start' });
    expect(face(deck, 20).head.end).toMatch(/^ends ≈19:3\d, ≈\d+ min in hand$/);
  });

  test('an end that waits for the coach’s word is one as well; one that rests on written intervals is none', () => {
    const waits = new Deck('start 19:30\nA\n2 x 50 @ 1:00\n\nB\n2 x 50 @ 1:00\n').at(0, { do: 'start' });
    expect(face(waits, 20).head.end).toMatch(/^ends ≈19:\d\d$/);
    const written = new Deck('start 19:30\n2 x 50 @ 1:00\nbreak 1:00\n2 x 50 @ 1:00\n').at(0, { do: 'start' });
    expect(face(written, 20).head.end).toMatch(/^ends 19:\d\d$/);
  });

  test('a leave is none: the lane is sent off at that reading', () => {
    const deck = new Deck(REST).at(0, { do: 'start' });
    expect(face(deck, 20).lanes[0]!.leave).toMatch(/^\d:\d\d$/);
  });
});

describe('what begins by itself', () => {
  const BREAK = 'start on 10\nlane 1 3 swimmers\n2 x 50 free @ 1:00\nbreak 0:45 drink\n50 easy @ 1:00\n';

  test('is said with its reading as soon as nobody is to leave any more, by the clock that is shown', () => {
    const deck = new Deck(BREAK).at(0, { do: 'start' });
    expect(face(deck, 69).head.title).toBe('Session');
    expect(face(deck, 71).head.title).toBe('Break at 2:10');
    expect(face(deck, 125).head.title).toBe('Break at 2:10');
    expect(face(deck, 125, 'run').head.title).toBe('Break at 2:20');
    expect(face(deck, 140)).toMatchObject({ mode: 'pause' });
  });

  test('not where it waits for the coach', () => {
    const deck = new Deck(BREAK).at(0, { do: 'start' }).at(75, { do: 'stop' });
    expect(face(deck, 80).head.title).toBe('Session');
  });
});

describe('dots of swimmers who follow', () => {
  const SIX = 'start on 10\nlane 1 6 swimmers\nA\n4 x 50 @ 1:00\n\nB\n4 x 25 @ 1:00\n';
  const dotsAt = (text: string, given: readonly (readonly [number, Command])[], seconds: number): unknown => {
    const deck = new Deck(text);
    for (const [at, command] of given) deck.at(at, command);
    const abandonedAt = lastAbandoned(given.map(([at, command]) => ({ at: at * 1000, command })));
    return wallFace(view(deck.state, seconds * 1000), OPENED_AT, 'stretch', abandonedAt).lanes[0]!.dots;
  };

  test('of a set that was given up go with it, under "starts in" too', () => {
    const given: [number, Command][] = [
      [0, { do: 'start' }],
      [12, { do: 'move-on' }],
      [16, { do: 'start' }],
    ];
    expect(dotsAt(SIX, given.slice(0, 1), 12)).toEqual({ away: 1, of: 6 });
    expect(dotsAt(SIX, given, 27)).toBeNull();
    expect(dotsAt(SIX, given, 31)).toEqual({ away: 1, of: 6 });
  });

  test('stay where the next stretch was started while they left', () => {
    const text = 'start on 1\nlane 1 6 swimmers\nA\n50 @ 1:00\n\nB\n4 x 25 @ 1:00\n';
    const given: [number, Command][] = [
      [0, { do: 'start' }],
      [12, { do: 'start' }],
    ];
    expect(dotsAt(text, given, 20)).toEqual({ away: 3, of: 6 });
  });

  test('and where giving it up was undone', () => {
    const given: [number, Command][] = [
      [0, { do: 'start' }],
      [12, { do: 'move-on' }],
      [14, { do: 'undo' }],
    ];
    expect(dotsAt(SIX, given, 16)).toEqual({ away: 2, of: 6 });
  });
});

describe('whose turn it is', () => {
  test('by number and reading, and by name where the session has names', () => {
    const text = 'lane 1 Ada, Ben, Cem, Dot\nlane 2 3 swimmers\n2 x 50 free @ 1:30\n';
    const deck = new Deck(text).at(0, { do: 'start' });
    const [first, second] = face(deck, 10 + 7).lanes;
    expect(first).toMatchObject({ turn: '3 at 0:10', turnByName: '3 Cem at 0:10', dots: { away: 2, of: 4 } });
    expect(second).toMatchObject({ turn: '3 at 0:10', turnByName: '3 at 0:10' });
  });
});

describe('[kit] what is needed next is said before it is needed', () => {
  const TEXT = `Squad
lane 1

Main
kit: fins
2 x 50 free @ 1:00
kit: paddles
50 pull @ 1:00
break 0:30
kit: board
50 kick @ 1:00
`;
  const deck = new Deck(TEXT).at(0, { do: 'start' });

  test('in the head while the set before it is swum', () => {
    expect(face(deck, 20).head.then).toBe('kit: fins, then 50 pull, kit: paddles');
  });

  test('in the break before it, above what follows', () => {
    const { mode, callout } = face(deck, 10 + 185);
    expect([mode, callout?.lines]).toEqual(['pause', ['kit: board', 'then 50 kick']]);
  });
});
