import { describe, expect, it } from 'vitest';
import { Deck } from '../../support/run/deck.ts';

/** Line 2: lane 1; line 3: lane 2; line 4: the set. */
const TWO_LANES = 'Test\nlane 1, 3 swimmers\nlane 2, gap 10\n4 x 50 free @ 1:00/1:10';

describe('leaving', () => {
  it('[start] the first leave comes on a round reading at least ten seconds after the word', () => {
    expect(new Deck(TWO_LANES).at(2, { do: 'start' }).leaves(1)).toEqual([15, 75, 135, 195]);
    expect(new Deck(TWO_LANES).at(5, { do: 'start' }).leaves(2)).toEqual([15, 85, 155, 225]);
    expect(new Deck(TWO_LANES, 3).at(2, { do: 'start' }).leaves(1, 20)).toEqual([12]);
    expect(new Deck('start on 30\n50 @ 1:00', 7.5).at(20.001, { do: 'start' }).leaves(1)).toEqual([52.5]);
  });

  it('[R1] a leave within a quarter of a second is a fact for the command; one later is not', () => {
    const early = new Deck(TWO_LANES).at(0, { do: 'start' });
    expect(early.at(9.75, { do: 'stop' }).leaves(1)).toEqual([10]);
    const late = new Deck(TWO_LANES).at(0, { do: 'start' });
    expect(late.at(9.749, { do: 'stop' }).leaves(1)).toEqual([]);
  });

  it('[R2] the tail goes with the swimmers and the gap of the moment the lead left', () => {
    const deck = new Deck(TWO_LANES).at(0, { do: 'start' }).at(12, { do: 'swimmers', lanes: [1], n: 1 });
    expect(deck.view(14).lanes[0]!.last).toMatchObject({ swimmers: 3, away: 1, tailAt: 20_000 });
    expect(deck.view(15).lanes[0]!.last).toMatchObject({ away: 2 });
    expect(deck.view(71).lanes[0]!.last).toMatchObject({ swimmers: 1, away: 1, tailAt: 70_000 });
  });

  it('[R5] a stretch ends at the end of its longest lane, tail included', () => {
    const deck = new Deck(TWO_LANES).at(0, { do: 'start' });
    expect(deck.settled(289.999).phase).toBe('going');
    expect(deck.settled(290)).toMatchObject({ phase: 'done', doneAt: 290_000 });
    const tails = new Deck('lane 1, 20 swimmers, gap 60\n4 x 50 @ 1:00').at(0, { do: 'start' });
    expect(tails.settled(Infinity).doneAt).toBe((10 + 240 + 19 * 60) * 1000);
  });

  it('[R5] the tail counts as it is while something is pending, and as the last leave had it afterwards', () => {
    const deck = new Deck('lane 1, 20 swimmers\n2 x 50 @ 1:00').at(0, { do: 'start' });
    expect(deck.settled(Infinity).doneAt).toBe(225_000);
    expect(deck.at(60, { do: 'swimmers', n: 10 }).settled(Infinity).doneAt).toBe(175_000);
    // The second rep left at 1:10 with ten swimmers: they follow, whatever is commanded.
    deck.at(80, { do: 'swimmers', n: 1 }).at(81, { do: 'gap', seconds: 1 });
    expect(deck.settled(Infinity).doneAt).toBe(175_000);
    expect(deck.at(82, { do: 'swimmers', n: 20 }).settled(Infinity).doneAt).toBe(175_000);
  });

  it('[R5] a lane that has left nothing yet keeps its tail as it is now', () => {
    const deck = new Deck('lane 1, 3 swimmers\n50 @ 1:00').at(0, { do: 'start' }).at(5, { do: 'sit-out' });
    expect(deck.settled(Infinity).doneAt).toBe(80_000);
    expect(deck.at(6, { do: 'gap', seconds: 20 }).settled(Infinity).doneAt).toBe(110_000);
  });

  it('[R5] a lane that swims nothing in a stretch has no tail there', () => {
    const deck = new Deck('lane 1\nlane 2 20 swimmers, gap 60\n2/0 x 50 @ 1:00').at(0, { do: 'start' });
    expect(deck.settled(Infinity).doneAt).toBe(130_000);
  });

  it('[R5] an end that a command puts into the past is the time of the command', () => {
    const deck = new Deck('lane 1\nlane 2\n1/4 x 50 @ 1:00').at(0, { do: 'start' });
    expect(deck.at(100, { do: 'lane-out', lanes: [2] }).settled(Infinity).doneAt).toBe(100_000);
  });

  it('[R5] a part waits for the coach, or with "between auto" begins on the round reading after it', () => {
    const parts = '\nOne\n50 @ 1:01\nTwo\n50 @ 1:00';
    const waits = new Deck(`T${parts}`).at(0, { do: 'start' });
    expect(waits.settled(71)).toMatchObject({ phase: 'waiting', index: 1 });
    expect(waits.leaves(1)).toEqual([10]);
    const auto = new Deck(`T\nbetween auto 0:45${parts}`).at(0, { do: 'start' });
    expect(auto.leaves(1)).toEqual([10, 120]);
  });

  it('[R5] after a break the next swim begins by itself, after a talk it waits', () => {
    const auto = new Deck('One\n50 @ 1:00\nbreak 0:32\n50 @ 1:00').at(0, { do: 'start' });
    expect(auto.leaves(1)).toEqual([10, 105]);
    const talk = new Deck('One\n50 @ 1:00\ntalk 0:32\n50 @ 1:00').at(0, { do: 'start' });
    expect(talk.leaves(1)).toEqual([10]);
    expect(talk.settled(200)).toMatchObject({ phase: 'waiting', index: 2 });
  });

  it('[R5] a last stretch with an untimed set goes on until the coach says so', () => {
    const deck = new Deck('One\n300 easy').at(0, { do: 'start' });
    expect(deck.settled(Infinity).phase).toBe('going');
    expect(deck.at(900, { do: 'move-on' }).state).toMatchObject({ phase: 'done', doneAt: 900_000 });
  });

  it('[R6] nothing begins by itself with less than ten seconds after a command', () => {
    const deck = new Deck('One\n2 x 50 @ 1:00\nbreak 0:02\n50 @ 1:00').at(0, { do: 'start' });
    deck.at(60, { do: 'skip' });
    // Skipped: the break is 1:10 to 1:12, then the swim on 1:15; a command at 1:11 pushes it to 1:25.
    expect(deck.leaves(1)).toEqual([10, 75]);
    expect(deck.refusal(69, { do: 'shift', seconds: 5 })).toMatch(/No lane has any reps to come/);
    expect(deck.at(69, { do: 'mark', words: 'late' }).leaves(1)).toEqual([10, 75]);
    expect(deck.at(71, { do: 'shift', seconds: 1 }).leaves(1)).toEqual([10, 85]);
  });

  it('[R6] fewer swimmers or a smaller gap bring what begins by itself no nearer than ten seconds', () => {
    const text = 'between auto 0:00\nlane 1, 8 swimmers, gap 10\nOne\n50 @ 1:00\nTwo\n50 @ 1:00';
    for (const command of [
      { do: 'swimmers', n: 1 },
      { do: 'gap', seconds: 1 },
    ] as const) {
      const deck = new Deck(text).at(0, { do: 'start' });
      expect(deck.leaves(1)).toEqual([10, 140]);
      // A tail not in the water yet: none has left.
      deck.at(5, { do: 'sit-out' }).at(100, command);
      expect(deck.leaves(1)).toEqual([110]);
      expect(deck.view(105).clock.startsIn).toBe(5000);
    }
  });
});
