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
    expect(deck.refusal(31, { do: 'cut', line: 3, n: 1 })).toMatch(/At least one rep/);
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
    expect(deck.refusal(1, { do: 'cut', line: 2, n: 2 })).toMatch(/round of line 2 stays/);
    deck.at(1, { do: 'start' });
    expect(deck.view(20).lanes[0]!.next!.rounds).toMatchObject([{ round: 1, of: 3 }]);
  });

  it('[cut] a talk under way stays until it is over, and is gone after it', () => {
    const deck = new Deck('2 rounds\n  50 @ 1:00\n  talk 1:00\nTwo\n50 @ 1:00').at(0, {
      do: 'go-to',
      line: 2,
      rounds: [2],
      rep: 1,
    });
    deck.at(1, { do: 'start' }).at(85, { do: 'mark' });
    expect(deck.refusal(86, { do: 'cut', line: 1, n: 1 })).toMatch(/still to come/);
  });

  it('[cut] not timed blocks, swims by time, untimed sets, talks or headings; a rep swum again stays', () => {
    const text = 'One\n2:00 of 50s @ 1:00\n2:00 easy\n100 easy\ntalk 1:00\nTwo\n3 x 50 @ 1:00';
    const deck = new Deck(text);
    for (const line of [1, 2, 3, 4, 5, 6, 99]) expect(deck.refusal(0, { do: 'cut', line, n: 1 })).not.toBe('');
    const again = new Deck('3 x 50 @ 1:00').at(0, { do: 'start' }).at(140, { do: 'repeat' });
    expect(again.refusal(141, { do: 'cut', line: 1, n: 1 })).toMatch(/still to come/);
  });

  it('[cut] a line that is rounds and a set is cut by rounds', () => {
    const deck = new Deck('3 x 4 x 50 @ 1:00').at(0, { do: 'cut', line: 1, n: 1 });
    expect(deck.state.stretches[0]!.lanes[0]!.reps.length).toBe(8);
  });
});

describe('rewrite', () => {
  it('[rewrite] what comes after the part that has begun takes the place of what was to come', () => {
    const deck = new Deck(ROUNDS).at(0, { do: 'start' }).at(5, { do: 'cut', line: 2, n: 2 });
    const kept = ROUNDS.split('\n').slice(0, 5).join('\n');
    deck.at(20, { do: 'rewrite', text: `${kept}\nSprints\n3 x 25 @ 1:00` });
    expect(deck.state.stretches.map(({ part }) => part)).toEqual(['Main', 'Main', 'Main', 'Sprints']);
    expect(deck.state.stretches[3]!.lanes[0]!.reps.map((rep) => rep.set.line)).toEqual([7, 7, 7]);
  });

  it('[rewrite] lines and lanes that have begun stay, what follows begins with a heading', () => {
    const deck = new Deck(ROUNDS).at(0, { do: 'start' });
    const lines = ROUNDS.split('\n');
    const changed = [...lines.slice(0, 4), '100-300-100 @ 2:00', ...lines.slice(5)].join('\n');
    expect(deck.refusal(20, { do: 'rewrite', text: changed })).toMatch(/Line 5/);
    const unheaded = [...lines.slice(0, 5), '4 x 25 @ 0:40'].join('\n');
    expect(deck.refusal(20, { do: 'rewrite', text: unheaded })).toMatch(/heading/);
    expect(deck.refusal(20, { do: 'rewrite', text: 'Main\n4 x' })).toMatch(/fault in line 2/);
  });

  it('[rewrite] before anything has begun all of it can be written anew, but for the settings', () => {
    const deck = new Deck('lane 2\nOne\n\nTwo\n50 @ 1:00').at(0, {
      do: 'rewrite',
      text: 'lane 2\nOne\n\nOther\n3 x 100 @ 2:00',
    });
    expect(deck.state.stretches[0]!.part).toBe('Other');
    expect(deck.refusal(1, { do: 'rewrite', text: 'lane 3\nOne\n\nOther\n3 x 100 @ 2:00' })).toMatch(/Line 1/);
  });

  it('[rewrite] with nothing left to wait for the session is done', () => {
    const deck = new Deck('One\n50 @ 1:00\nTwo\n50 @ 1:00').at(0, { do: 'start' });
    expect(deck.at(80, { do: 'rewrite', text: 'One\n50 @ 1:00' }).state).toMatchObject({
      phase: 'done',
      doneAt: 80_000,
    });
  });
});
