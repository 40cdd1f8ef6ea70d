import { describe, expect, it } from 'vitest';
import { Deck } from '../../../support/run/deck.ts';

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
    const second = new Deck('One\n50 @ 1:00\nTwo\n3 x 50 @ 1:00').at(0, { do: 'go-to', line: 4, rep: 3 });
    second.at(1, { do: 'cut', line: 4, n: 1 });
    expect(second.state).toMatchObject({ phase: 'done', index: 0, doneAt: 1000 });
    expect(second.state.stretches.map(({ part }) => part)).toEqual(['One']);
    const last = new Deck('3 x 50 @ 1:00').at(0, { do: 'go-to', line: 1, rep: 3 }).at(1, { do: 'cut', line: 1, n: 1 });
    expect(last.state).toMatchObject({ phase: 'done', doneAt: 1000 });
    expect(last.view(2)).toMatchObject({ phase: 'done', undo: { command: { do: 'cut' } } });
  });

  describe('a stretch that was going and is left with nothing', () => {
    const back = { do: 'go-to', line: 2, rounds: [1], rep: 1 } as const;
    /** In the second round; the first of its two reps has left, and the rest of it is cut. */
    const emptied = (more = '') =>
      new Deck(`2 rounds\n  2 x 50 @ 1:00\n  talk 0:30${more}`)
        .at(0, { ...back, rounds: [2] })
        .at(1, { do: 'start' })
        .at(20, { do: 'cut', line: 1, n: 1 });
    const kinds = (deck: Deck) =>
      deck.state.stretches.map(({ kind, lanes }) => `${kind} ${lanes[0]?.reps.length ?? ''}`);

    it('[cut] stays while it goes, and goes once it is no longer begun', () => {
      expect(kinds(emptied())).toEqual(['swim 2', 'talk ', 'swim 0']);
      expect(kinds(emptied().at(24, back))).toEqual(['swim 2', 'talk ']);
      expect(emptied().at(24, back).state).toMatchObject({ phase: 'waiting', index: 0 });
    });

    it('[cut] goes with a restart: the next waits in its place, and with none the session is done', () => {
      expect(emptied().at(24, { do: 'restart' }).state).toMatchObject({ phase: 'done', index: 1, doneAt: 24_000 });
      expect(kinds(emptied().at(24, { do: 'restart' }))).toEqual(['swim 2', 'talk ']);
      const next = emptied('\nTwo\n50 @ 1:00').at(24, { do: 'restart' });
      expect(next.state).toMatchObject({ phase: 'waiting', index: 2 });
      expect(kinds(next)).toEqual(['swim 2', 'talk ', 'swim 1']);
    });

    it('[cut] stands before those that follow once it is over', () => {
      const over = emptied('\nTwo\n50 @ 1:00').at(200, { do: 'start' }).at(215, { do: 'restart' });
      expect(over.state).toMatchObject({ phase: 'waiting', index: 3 });
      expect(over.at(220, { do: 'start' }).reps(1).slice(-1)).toEqual(['5.1 at 230']);
    });
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

  it('[cut] not what is swum again by a repeat', () => {
    const again = new Deck('3 x 50 @ 1:00').at(0, { do: 'start' }).at(140, { do: 'repeat' });
    expect(again.refusal(141, { do: 'cut', line: 1, n: 1 })).toMatch(/nothing left to cut/);
  });

  it.each([
    [1, 'Line 1 is neither a set nor rounds: choose another line to cut.'],
    [4, 'A timed swim or timed block cannot be cut: use Skip rep or Move on.'],
    [5, 'A timed swim or timed block cannot be cut: use Skip rep or Move on.'],
    [6, 'An untimed set cannot be cut: use Move on.'],
    [7, 'A talk or break cannot be cut: use Move on.'],
    [8, 'A talk or break cannot be cut: use Move on.'],
    [9, 'Line 9 is neither a set nor rounds: choose another line to cut.'],
    [99, 'Line 99 is neither a set nor rounds: choose another line to cut.'],
  ])('[cut] of line %d says why not, and what to do', (line, why) => {
    const text =
      'lane 1\nlane 2\nOne\n2:00 of 50s @ 1:00\n2:00 easy\n100 easy\ntalk 1:00\nbreak 1:00\nlane 2:\n  2 x 50 @ 1:00';
    expect(new Deck(text).refusal(0, { do: 'cut', line, n: 1 })).toBe(why);
  });

  it('[cut] of a ladder its last reps go, and one stays', () => {
    const deck = new Deck('100-200-300 @ 2:00\n50 @ 1:00');
    expect(deck.refusal(0, { do: 'cut', line: 1, n: 3 })).toBe(
      'Line 1 must keep at least one rep in every lane: cut fewer, or use Move on.',
    );
    deck.at(0, { do: 'cut', line: 1, n: 2 }).at(1, { do: 'start' });
    expect(deck.reps(1)).toEqual(['1.1 at 15', '2.1 at 135']);
  });

  it('[cut] of rounds in rounds those of the line alone', () => {
    const reps = (line: number) => {
      const deck = new Deck('2 rounds\n  3 rounds\n    50 @ 1:00\n    talk 0:30').at(0, { do: 'cut', line, n: 1 });
      return deck.state.stretches.map(({ kind }) => kind);
    };
    expect(reps(2)).toEqual(new Array(4).fill(['swim', 'talk']).flat());
    expect(reps(1)).toEqual(new Array(3).fill(['swim', 'talk']).flat());
  });

  it('[cut] a waiting stretch that is left with nothing goes; with none to follow the session is done', () => {
    const text = '2 rounds\n  50 @ 1:00\n  talk 0:30';
    const deck = new Deck(text)
      .at(0, { do: 'go-to', line: 2, rounds: [2], rep: 1 })
      .at(1, { do: 'cut', line: 1, n: 1 });
    expect(deck.state).toMatchObject({ phase: 'done', doneAt: 1000 });
    expect(deck.state.stretches.map(({ kind }) => kind)).toEqual(['swim', 'talk']);
  });

  it('[cut] what follows waits for the coach as long as an untimed set is left before it', () => {
    const text = 'lane 1\nlane 2\n4 x 50 @ 1:00\n2 rounds\n  2 x 25 @ 0:30\n  1/0 x 100 easy\n2 x 50 @ 1:00';
    const untimed = (line: number) =>
      new Deck(text).at(0, { do: 'cut', line, n: 1 }).state.stretches.map((stretch) => stretch.untimed);
    expect(untimed(3)).toEqual([true, true, false]);
    expect(untimed(4)).toEqual([true, false]);
  });

  it('[cut] a timed block in a round goes by its whole time', () => {
    const deck = new Deck('3 rounds\n  4:30 of 50s @ 2:00\n100 @ 2:00').at(0, { do: 'start' });
    expect(deck.leaves(1)).toEqual([10, 130, 280, 400, 550, 670, 820]);
    expect(deck.at(20, { do: 'cut', line: 1, n: 1 }).leaves(1)).toEqual([10, 130, 280, 400, 550]);
    expect(deck.state.lanes[0]!.end).toBe(670_000);
  });

  it('[cut] is taken where one lane still has something of it', () => {
    const deck = new Deck('lane 1\nlane 2\n4 x 50 @ 1:00/0:30').at(0, { do: 'start' });
    deck.at(110, { do: 'cut', line: 3, n: 2 });
    expect(deck.leaves(1)).toEqual([10, 70]);
    expect(deck.leaves(2)).toEqual([10, 40, 70, 100]);
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
