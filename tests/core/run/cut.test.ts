import { describe, expect, it } from 'vitest';
import { Deck } from '../../support/deck.ts';

/** Line 2: three rounds; 3 and 4 in them; 5: a ladder; 7: the swim-down. */
const ROUNDS = 'Main\n3 rounds\n  2 x 50 fast @ 1:00\n  talk 1:00\n100-200-100 @ 2:00\nSwim-down\n200 easy';

describe('cut', () => {
  it('[cut] the last reps of every occurrence go, what follows comes sooner', () => {
    const deck = new Deck('lane 1\nlane 2\n4/3 x 50 @ 1:00\n50 kick @ 1:00').at(0, { do: 'start' });
    deck.at(20, { do: 'cut', line: 3, n: 1 });
    expect(deck.reps(1)).toEqual(['3.1 at 10', '3.2 at 70', '3.3 at 130', '4.1 at 190']);
    expect(deck.reps(2)).toEqual(['3.1 at 10', '3.2 at 70', '4.1 at 130']);
    expect(deck.at(30, { do: 'cut', line: 3, n: 1 }).reps(2)).toEqual(['3.1 at 10', '4.1 at 70']);
    expect(deck.refusal(31, { do: 'cut', line: 3, n: 1 })).toMatch(/at least one rep/);
  });

  it('[cut] what has left stays, and is not swum in a restart', () => {
    const deck = new Deck('4 x 50 @ 1:00').at(0, { do: 'start' }).at(140, { do: 'cut', line: 1, n: 2 });
    expect(deck.reps(1)).toEqual(['1.1 at 10', '1.2 at 70', '1.3 at 130']);
    expect(deck.at(150, { do: 'restart' }).at(160, { do: 'start' }).reps(1).slice(3)).toEqual([
      '1.1 at 170',
      '1.2 at 230',
    ]);
  });

  it('[cut] a stretch that is over stays whole for a restart', () => {
    const deck = new Deck('2 rounds\n  3 x 50 @ 1:00\n  100 easy').at(0, { do: 'go-to', line: 2, rounds: [2], rep: 1 });
    deck.at(1, { do: 'cut', line: 2, n: 1 }).at(4, { do: 'restart' });
    expect(deck.state.stretches.map(({ lanes }) => lanes[0]!.reps.length)).toEqual([4, 3]);
  });

  it('[cut] rounds go with their talks, and a stretch left with nothing', () => {
    const deck = new Deck(ROUNDS).at(0, { do: 'cut', line: 2, n: 1 });
    expect(deck.state.stretches.map(({ kind }) => kind)).toEqual(['swim', 'talk', 'swim', 'talk', 'swim', 'swim']);
    expect(deck.refusal(1, { do: 'cut', line: 2, n: 2 })).toMatch(/Line 2 must keep at least one round/);
    deck.at(1, { do: 'start' });
    expect(deck.view(20).lanes[0]!.next!.rounds).toMatchObject([{ round: 1, of: 2 }]);
  });

  it('[cut] screens count what there now is, the record what was written; what has left keeps its place', () => {
    const deck = new Deck('8 x 50 @ 1:00').at(0, { do: 'start' });
    deck.at(20, { do: 'cut', line: 1, n: 3 });
    expect(deck.view(30).lanes[0]).toMatchObject({ next: { of: 5, rep: { rep: 2, of: 8 } }, last: { of: 5 } });
    const late = new Deck('3 rounds\n  2 x 50 @ 1:00').at(0, { do: 'start' }).at(200, { do: 'cut', line: 1, n: 1 });
    expect(late.view(201).lanes[0]!.last).toMatchObject({ of: 2, rounds: [{ round: 2, of: 2 }] });
    const both = new Deck('3 x 4 x 50 @ 1:00').at(0, { do: 'cut', line: 1, n: 1 });
    expect(both.view(1).lanes[0]!.next).toMatchObject({ of: 4, rounds: [{ round: 1, of: 2 }] });
    const started = new Deck('8 x 50 @ 1:00').at(0, { do: 'start' }).at(400, { do: 'cut', line: 1, n: 1 });
    expect(started.view(401).lanes[0]!.last).toMatchObject({ of: 7, rep: { rep: 7 } });
  });

  it('[cut] a waiting stretch with nothing left from the place a go-to named goes', () => {
    const text = 'One\n3 x 50 @ 1:00\nTwo\n100 @ 2:00';
    const deck = new Deck(text).at(0, { do: 'go-to', line: 2, rep: 3 }).at(1, { do: 'cut', line: 2, n: 1 });
    expect(deck.state).toMatchObject({ phase: 'waiting', index: 0, from: null });
    expect(deck.state.stretches.map(({ part }) => part)).toEqual(['Two']);
    const last = new Deck('3 x 50 @ 1:00').at(0, { do: 'go-to', line: 1, rep: 3 }).at(1, { do: 'cut', line: 1, n: 1 });
    expect(last.state).toMatchObject({ phase: 'done', doneAt: 1000 });
    expect(last.view(2)).toMatchObject({ phase: 'done', undo: { command: { do: 'cut' } } });
  });

  it('[cut] a stretch that was going and is left with nothing goes once it is no longer begun', () => {
    const text = 'T\nMain\n2 rounds\n  2 x 50 @ 1:00\n  talk 0:30\n  1 x 25 @ 0:30\ntalk 0:30';
    const back = { do: 'go-to', line: 4, rounds: [1], rep: 1 } as const;
    const deck = new Deck(text).at(0, { ...back, rounds: [2] }).at(1, { do: 'start' });
    deck.at(20, { do: 'cut', line: 3, n: 1 }).at(24, back);
    expect(deck.state.stretches.every(({ kind, lanes }) => kind !== 'swim' || lanes[0]!.reps.length > 0)).toBe(true);
    expect(deck.state.stretches.map(({ kind }) => kind)).toEqual(['swim', 'talk', 'swim', 'talk']);
  });

  it('[cut] takes the last reps that still stand of every occurrence, and screens count these', () => {
    const text = 'T\nMain\n2 rounds\n  5 x 50 @ 1:00\n  100 easy';
    const deck = new Deck(text).at(0, { do: 'go-to', line: 4, rounds: [2], rep: 1 });
    deck.at(1, { do: 'cut', line: 4, n: 2 }).at(2, { do: 'go-to', line: 4, rounds: [1], rep: 1 });
    expect(deck.view(2).lanes[0]!.next).toMatchObject({ of: 5 });
    deck.at(3, { do: 'cut', line: 4, n: 2 });
    expect(deck.state.stretches.map(({ lanes }) => lanes[0]!.reps.length)).toEqual([4, 2]);
    expect(deck.view(3).lanes[0]!.next).toMatchObject({ of: 3 });
    expect(deck.refusal(4, { do: 'cut', line: 4, n: 1 })).toMatch(/at least one rep/);
  });

  it('[cut] a talk under way stays until it is over, and is gone after it', () => {
    const deck = new Deck('2 rounds\n  50 @ 1:00\n  talk 1:00\nTwo\n50 @ 1:00').at(0, {
      do: 'go-to',
      line: 2,
      rounds: [2],
      rep: 1,
    });
    deck.at(1, { do: 'start' }).at(85, { do: 'mark' });
    expect(deck.refusal(86, { do: 'cut', line: 1, n: 1 })).toMatch(/nothing left to cut/);
  });

  it('[cut] not timed blocks, swims by time, untimed sets, talks or headings; a rep swum again stays', () => {
    const text = 'One\n2:00 of 50s @ 1:00\n2:00 easy\n100 easy\ntalk 1:00\nTwo\n3 x 50 @ 1:00';
    const deck = new Deck(text);
    for (const line of [1, 2, 3, 4, 5, 6, 99]) expect(deck.refusal(0, { do: 'cut', line, n: 1 })).not.toBe('');
    const again = new Deck('3 x 50 @ 1:00').at(0, { do: 'start' }).at(140, { do: 'repeat' });
    expect(again.refusal(141, { do: 'cut', line: 1, n: 1 })).toMatch(/nothing left to cut/);
  });

  it('[cut] a line that is rounds and a set is cut by rounds', () => {
    const deck = new Deck('3 x 4 x 50 @ 1:00').at(0, { do: 'cut', line: 1, n: 1 });
    expect(deck.state.stretches[0]!.lanes[0]!.reps.length).toBe(8);
  });

  it('[cut] reps go without the talks between them', () => {
    const deck = new Deck('2 rounds\n  4 x 50 @ 1:00\n  talk 1:00').at(0, { do: 'cut', line: 2, n: 1 });
    expect(deck.state.stretches.map(({ kind, gone }) => [kind, gone ?? false])).toEqual([
      ['swim', false],
      ['talk', false],
      ['swim', false],
      ['talk', false],
    ]);
  });
});
