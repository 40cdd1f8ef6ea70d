import { describe, expect, it } from 'vitest';
import { Deck } from '../../support/deck.ts';

const PARTS = 'Test\nOne\n2 x 50 @ 1:00\nTwo\n2 x 50 @ 1:00\nbreak 0:30\n2 x 50 @ 1:00\nThree\n50 @ 1:00';

describe('start', () => {
  it('[start b] during a countdown with all lanes stopped nothing counts down, and it says so', () => {
    const deck = new Deck('4 x 50 @ 1:00').at(0, { do: 'start' });
    expect(deck.view(4).clock.startsIn).toBe(6000);
    deck.at(4, { do: 'stop' });
    expect(deck.view(4).clock.startsIn).toBeNull();
    expect(deck.refusal(7, { do: 'start' })).toBe('All lanes are stopped: use Resume or Move on.');
    deck.at(8, { do: 'resume' });
    expect(deck.leaves(1, 25)).toEqual([20]);
  });

  it('[start b] during a countdown it brings the start forward', () => {
    const deck = new Deck('start on 60\n50 @ 1:00').at(1, { do: 'start' });
    expect(deck.leaves(1)).toEqual([60]);
    expect(deck.refusal(30, { do: 'start' })).toMatch(/sooner/);
    const auto = new Deck('between auto 2:00\nOne\n50 @ 1:00\nTwo\n50 @ 1:00').at(0, { do: 'start' });
    expect(auto.at(81, { do: 'start' }).leaves(1)).toEqual([10, 95]);
  });

  it('[start] a second one within three seconds is a bounce', () => {
    const deck = new Deck(PARTS).at(0, { do: 'start' });
    expect(deck.refusal(2.999, { do: 'start' })).toMatch(/less than 3 s ago/);
  });

  it('[start c] the next stretch begins where nobody is still to leave, or only stopped lanes are', () => {
    const deck = new Deck('lane 1\nlane 2\nOne\n1/3 x 50 @ 1:00\nTwo\n50 @ 1:00').at(0, { do: 'start' });
    expect(deck.refusal(30, { do: 'start' })).toMatch(/still going/);
    deck.at(30, { do: 'stop' }).at(41, { do: 'start' });
    expect(deck.leaves(1)).toEqual([10, 55]);
    expect(deck.leaves(2)).toEqual([10, 55]);
    const allStopped = new Deck(PARTS).at(0, { do: 'start' }).at(15, { do: 'stop' });
    expect(allStopped.refusal(20, { do: 'start' })).toMatch(/Resume/);
  });
});

describe('move on, restart, go to, finish', () => {
  it('[move-on] going: what is pending is dropped and the next waits; a break after a swim goes on at once', () => {
    const deck = new Deck(PARTS).at(0, { do: 'start' }).at(20, { do: 'move-on' });
    expect(deck.state).toMatchObject({ phase: 'waiting', index: 1 });
    deck.at(30, { do: 'start' }).at(50, { do: 'move-on' });
    expect(deck.state).toMatchObject({ phase: 'going', index: 2, t0: 50_000 });
    // The break ends at 1:20: the swim after it begins by itself.
    expect(deck.leaves(1)).toEqual([10, 40, 80, 140]);
  });

  it('[move-on] waiting: the stretch is passed over; past the last the session is done', () => {
    const deck = new Deck(PARTS)
      .at(0, { do: 'move-on' })
      .at(1, { do: 'move-on' })
      .at(2, { do: 'move-on' })
      .at(3, { do: 'move-on' });
    expect(deck.state).toMatchObject({ phase: 'waiting', index: 4 });
    expect(deck.at(4, { do: 'move-on' }).state).toMatchObject({ phase: 'done', doneAt: 4000 });
    expect(deck.refusal(5, { do: 'start' })).toBe('The session is done.');
  });

  it('[move-on] not within three seconds of an end that came by itself', () => {
    const deck = new Deck(PARTS).at(0, { do: 'start' });
    expect(deck.refusal(132.999, { do: 'move-on' })).toMatch(/just ended by itself/);
    expect(deck.at(133, { do: 'move-on' }).state.index).toBe(2);
  });

  it('[restart] going: the stretch waits again, whole; waiting: the one before', () => {
    const deck = new Deck(PARTS).at(0, { do: 'start' }).at(80, { do: 'restart' });
    expect(deck.state).toMatchObject({ phase: 'waiting', index: 0 });
    expect(deck.refusal(90, { do: 'restart' })).toMatch(/first/);
    expect(deck.at(100, { do: 'start' }).leaves(1)).toEqual([10, 70, 110, 170]);
    expect(deck.at(300, { do: 'restart' }).at(310, { do: 'start' }).leaves(1, 330)).toEqual([10, 70, 110, 170, 320]);
  });

  it('[go-to] each lane starts with its first rep not before the one named, all at offset 0', () => {
    const deck = new Deck('lane 1\nlane 2\nOne\n6/3 x 50 @ 1:00\n2 x 100 @ 2:00').at(0, { do: 'start' });
    deck.at(20, { do: 'go-to', line: 4, rep: 5 });
    expect(deck.state).toMatchObject({ phase: 'waiting', index: 0 });
    deck.at(30, { do: 'start' });
    expect(deck.reps(1)).toEqual(['4.1 at 10', '4.5 at 40', '4.6 at 100', '5.1 at 160', '5.2 at 280']);
    expect(deck.reps(2)).toEqual(['4.1 at 10', '5.1 at 40', '5.2 at 160']);
    expect(deck.settled(Infinity).doneAt).toBe(400_000);
    expect(deck.refusal(35, { do: 'go-to', line: 4, rep: 7 })).toMatch(/does not have that rep/);
    expect(deck.refusal(35, { do: 'go-to', line: 4, rounds: [1], rep: 5 })).toMatch(/does not have that rep/);
  });

  it('[finish] done at once, also while waiting', () => {
    expect(new Deck(PARTS).at(7, { do: 'finish' }).state).toMatchObject({ phase: 'done', doneAt: 7000 });
  });
});

describe('undo', () => {
  it('[undo] where no leave has come or gone since, the run is as if the command had not been given', () => {
    const deck = new Deck(PARTS).at(0, { do: 'start' });
    const before = deck.state;
    deck.at(20, { do: 'shift', seconds: 30 }).at(25, { do: 'mark', words: 'oops' }).at(30, { do: 'undo' });
    expect(deck.leaves(1)).toEqual([10, 70]);
    expect(deck.state).toMatchObject({
      phase: before.phase,
      index: before.index,
      t0: before.t0,
      steeredAt: before.steeredAt,
      startedAt: before.startedAt,
      stretches: before.stretches,
    });
    expect(deck.state.marks).toEqual([{ at: 25_000, lanes: [], words: 'oops' }]);
  });

  it('[undo] goes back one command after the other, each within ten seconds of its time', () => {
    const deck = new Deck(PARTS)
      .at(0, { do: 'start' })
      .at(20, { do: 'shift', seconds: 5 })
      .at(28, { do: 'shift', seconds: 7 });
    deck.at(30, { do: 'undo' });
    expect(deck.leaves(1)).toEqual([10, 75]);
    deck.at(30, { do: 'undo' });
    expect(deck.leaves(1)).toEqual([10, 70]);
    expect(deck.refusal(30, { do: 'undo' })).toMatch(/10 s ago/);
    expect(new Deck(PARTS).refusal(0, { do: 'undo' })).toMatch(/nothing/);
    expect(new Deck(PARTS).at(0, { do: 'finish' }).at(10, { do: 'undo' }).state.phase).toBe('waiting');
    expect(new Deck(PARTS).at(0, { do: 'finish' }).refusal(10.001, { do: 'undo' })).toMatch(/10 s ago/);
  });

  it('[undo] a stop that cost a leave is undone by resuming now; nothing before it can be undone then', () => {
    const deck = new Deck(PARTS).at(0, { do: 'start' }).at(60, { do: 'shift', seconds: 5 }).at(66, { do: 'stop' });
    deck.at(75, { do: 'undo' });
    // 1:15 was missed, so the leave comes the lead later on a round reading.
    expect(deck.leaves(1)).toEqual([10, 85]);
    expect(deck.refusal(75, { do: 'undo' })).toMatch(/nothing/);
  });

  it('[undo] a mistaken Move on is put back; what swimmers did after a start is not', () => {
    const deck = new Deck(PARTS).at(0, { do: 'start' }).at(65, { do: 'move-on' }).at(71, { do: 'undo' });
    expect(deck.leaves(1)).toEqual([10, 85]);
    expect(deck.state).toMatchObject({ phase: 'going', index: 0 });
    expect(new Deck(PARTS).at(0, { do: 'start' }).refusal(9.75, { do: 'undo' })).toMatch(/Swimmers have left/);
    expect(new Deck(PARTS).at(0, { do: 'start' }).at(9.749, { do: 'undo' }).state.phase).toBe('waiting');
  });
});
