import { describe, expect, it } from 'vitest';
import { Deck } from '../../support/run/deck.ts';

/** Line 5: the only set of One; Two begins by itself. */
const AUTO = 'between auto 0:30\nlane 1, 3 swimmers\nlane 2\nOne\n50 @ 1:00\nTwo\n50 @ 1:00';

describe('a Stop holds what follows', () => {
  it('[stop] with nothing pending it is taken where what follows would begin by itself', () => {
    const deck = new Deck(AUTO).at(0, { do: 'start' });
    expect(deck.leaves(1)).toEqual([10, 110]);
    expect(deck.view(30)).toMatchObject({ held: false, followsAt: 110_000 });
    deck.at(30, { do: 'stop' });
    expect(deck.leaves(1)).toEqual([10]);
    expect(deck.view(30)).toMatchObject({ held: true, followsAt: null, followingWaits: true });
    expect(deck.settled(200)).toMatchObject({ phase: 'waiting', index: 1 });
    expect(deck.refusal(31, { do: 'stop' })).toMatch(/reps to come/);
  });

  it('[stop] a lane cannot be stopped that has nothing pending, and what waits anyway is not held', () => {
    const deck = new Deck(AUTO).at(0, { do: 'start' });
    expect(deck.refusal(30, { do: 'stop', lanes: [1] })).toMatch(/reps to come/);
    const byHand = new Deck('One\n50 @ 1:00\nTwo\n50 @ 1:00').at(0, { do: 'start' });
    expect(byHand.refusal(30, { do: 'stop' })).toMatch(/reps to come/);
    const last = new Deck('50 @ 1:00').at(0, { do: 'start' });
    expect(last.refusal(30, { do: 'stop' })).toMatch(/reps to come/);
  });

  it('[stop] of all lanes is not forgotten when the last stopped lane sits out', () => {
    const deck = new Deck(AUTO).at(0, { do: 'start' }).at(5, { do: 'stop' });
    deck.at(6, { do: 'sit-out' });
    expect(deck.settled(Infinity)).toMatchObject({ phase: 'waiting', index: 1 });
    expect(deck.view(7).held).toBe(true);
  });

  it('[stop] of lanes by name holds these lanes only', () => {
    const deck = new Deck(AUTO).at(0, { do: 'start' }).at(5, { do: 'stop', lanes: [1, 2] });
    deck.at(6, { do: 'sit-out' });
    expect(deck.leaves(2)).toEqual([110]);
  });

  it('[resume] with no lane stopped lets go what follows, with the lead of warning', () => {
    const deck = new Deck(AUTO).at(0, { do: 'start' }).at(30, { do: 'stop' });
    expect(deck.refusal(40, { do: 'resume', lanes: [1] })).toMatch(/stopped/);
    expect(deck.at(40, { do: 'resume' }).leaves(1)).toEqual([10, 110]);
    expect(deck.refusal(41, { do: 'resume' })).toMatch(/stopped/);
    const late = new Deck(AUTO).at(0, { do: 'start' }).at(30, { do: 'stop' }).at(79, { do: 'resume' });
    expect(late.leaves(1)).toEqual([10, 110]);
  });

  it('[resume] of one stopped lane lets go what follows too', () => {
    const deck = new Deck(AUTO)
      .at(0, { do: 'start' })
      .at(5, { do: 'stop' })
      .at(6, { do: 'resume', lanes: [1] });
    expect(deck.view(7).held).toBe(false);
  });

  it('[rejoin] lets it go only where it leaves something pending', () => {
    const text = 'between auto 0:30\nOne\n2 x 50 @ 1:00\nTwo\n50 @ 1:00';
    const deck = new Deck(text).at(0, { do: 'start' }).at(15, { do: 'stop' });
    expect(deck.at(20, { do: 'rejoin' }).leaves(1)).toEqual([10, 70, 160]);
    const missed = new Deck(text).at(0, { do: 'start' }).at(15, { do: 'stop' }).at(65, { do: 'rejoin' });
    expect(missed.settled(Infinity)).toMatchObject({ phase: 'waiting', index: 1 });
  });

  it('[resume] while the run waits there is nothing to let go, be it that a Stop held it', () => {
    const deck = new Deck(AUTO).at(0, { do: 'start' }).at(30, { do: 'stop' });
    expect(deck.settled(200).phase).toBe('waiting');
    expect(deck.refusal(200, { do: 'resume' })).toBe('No lane is stopped.');
    expect(new Deck(AUTO).refusal(0, { do: 'resume' })).toBe('No lane is stopped.');
  });

  it('[stop] in a break is taken back by Resume', () => {
    const deck = new Deck('One\n50 @ 1:00\nbreak 0:32\n50 @ 1:00').at(0, { do: 'start' }).at(80, { do: 'stop' });
    expect(deck.leaves(1)).toEqual([10]);
    expect(deck.at(85, { do: 'resume' }).leaves(1)).toEqual([10, 105]);
  });

  it('[start] a start goes on from a held stretch, but not within three seconds of the Stop', () => {
    const deck = new Deck(AUTO).at(0, { do: 'start' }).at(30, { do: 'stop' });
    expect(deck.refusal(32.999, { do: 'start' })).toMatch(/Stop was given less than 3 s ago/);
    expect(deck.at(33, { do: 'start' }).leaves(1)).toEqual([10, 45]);
  });

  it('[undo] of such a Stop leaves no trace', () => {
    const deck = new Deck(AUTO).at(0, { do: 'start' });
    const before = deck.settled(35);
    expect({ ...deck.at(30, { do: 'stop' }).at(35, { do: 'undo' }).state, undoable: [] }).toEqual({
      ...before,
      undoable: [],
    });
  });

  it('[lane-in] after a Stop with nothing pending a lane comes in stopped, by itself', () => {
    const text = 'between auto 0:30\nlane 1\nlane 2\nOne\n1/3 x 50 @ 1:00\nTwo\n50 @ 1:00';
    const deck = new Deck(text).at(0, { do: 'lane-out', lanes: [2] }).at(1, { do: 'start' });
    deck.at(30, { do: 'stop' }).at(31, { do: 'lane-in', lanes: [2] });
    expect(deck.view(32).lanes[1]!.state).toBe('stopped');
    expect(deck.leaves(2)).toEqual([]);
    expect(deck.at(40, { do: 'resume' }).leaves(2)).toEqual([75, 135, 225]);
  });
});

describe('what follows by itself', () => {
  it('is shown with its time, and later where a command came just before', () => {
    const deck = new Deck('lane 1\n50 @ 1:00\nbreak 0:02\n50 @ 1:00').at(0, { do: 'start' });
    expect(deck.view(20).followsAt).toBe(70_000);
    expect(deck.view(71)).toMatchObject({ followsAt: 75_000 });
    deck.at(71, { do: 'gap', seconds: 5 });
    expect(deck.view(71)).toMatchObject({ followsAt: 85_000 });
    expect(deck.leaves(1)).toEqual([10, 85]);
  });
});
