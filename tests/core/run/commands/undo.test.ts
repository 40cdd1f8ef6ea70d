// The last command taken back, while nobody has acted on it.

import { describe, expect, it } from 'vitest';
import { Deck } from '../../../support/run/deck.ts';

const PARTS = 'Test\nOne\n2 x 50 @ 1:00\nTwo\n2 x 50 @ 1:00\nbreak 0:30\n2 x 50 @ 1:00\nThree\n50 @ 1:00';
const SWUM = 'Swimmers have left since then: what they swam cannot be undone.';

const started = (text = PARTS): Deck => new Deck(text).at(0, { do: 'start' });

describe('as if it had not been given', () => {
  it('[undo] where no leave has come or gone since, the run is as if the command had not been given', () => {
    const deck = started();
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
    const deck = started().at(20, { do: 'shift', seconds: 5 }).at(28, { do: 'shift', seconds: 7 });
    deck.at(30, { do: 'undo' });
    expect(deck.leaves(1)).toEqual([10, 75]);
    deck.at(30, { do: 'undo' });
    expect(deck.leaves(1)).toEqual([10, 70]);
    const nothing = 'There is nothing to undo: the last command was more than 10 s ago, or there was none.';
    expect(deck.refusal(30, { do: 'undo' })).toBe(nothing);
    expect(new Deck(PARTS).refusal(0, { do: 'undo' })).toBe(nothing);
    expect(new Deck(PARTS).at(0, { do: 'finish' }).at(10, { do: 'undo' }).state.phase).toBe('waiting');
    expect(new Deck(PARTS).at(0, { do: 'finish' }).refusal(10.001, { do: 'undo' })).toBe(nothing);
  });
});

describe('as if it had been a stop, resumed now', () => {
  it('[undo] a stop that cost a leave; nothing before it can be undone then', () => {
    const deck = started().at(60, { do: 'shift', seconds: 5 }).at(66, { do: 'stop' });
    deck.at(75, { do: 'undo' });
    // 1:15 was missed, so the leave comes the lead later on a round reading.
    expect(deck.leaves(1)).toEqual([10, 85]);
    expect(deck.refusal(75, { do: 'undo' })).toMatch(/nothing/);
  });

  it('[undo] a mistaken Move on is put back, and what follows begins as it would have', () => {
    const deck = started().at(65, { do: 'move-on' }).at(71, { do: 'undo' });
    expect(deck.leaves(1)).toEqual([10, 85]);
    expect(deck.state).toMatchObject({ phase: 'going', index: 0 });
    const auto = started('between auto 0:00\nOne\n2 x 50 @ 1:00\nTwo\n50 @ 1:00').at(65, { do: 'move-on' });
    expect(auto.at(71, { do: 'undo' }).leaves(1)).toEqual([10, 85, 145]);
  });

  it('[undo] for the lanes of the command alone: the others go on, and who was stopped stays so', () => {
    // Lane 2 would have left at 1:20.
    const deck = started('lane 1\nlane 2\n6/2 x 50 @ 0:20/1:10').at(75, { do: 'lane-out', lanes: [2] });
    deck.at(84, { do: 'undo' });
    expect(deck.leaves(1)).toEqual([10, 30, 50, 70, 90, 110]);
    expect(deck.leaves(2)).toEqual([10, 95]);
    const stopped = started('lane 1\nlane 2\n3 x 50 @ 1:00').at(20, { do: 'stop', lanes: [2] });
    stopped.at(65, { do: 'restart' }).at(71, { do: 'undo' });
    expect(stopped.state.lanes.map(({ stoppedBy }) => stoppedBy !== null)).toEqual([false, true]);
    expect(stopped.leaves(1)).toEqual([10, 85, 145]);
  });
});

describe('what it is refused for', () => {
  it('[undo] what swimmers did after a start is not undone', () => {
    expect(started().refusal(9.75, { do: 'undo' })).toBe(SWUM);
    expect(started().at(9.749, { do: 'undo' }).state.phase).toBe('waiting');
  });

  it('[undo] a leave that has happened, or is on its way, is never lost', () => {
    const text = 'One\n2 x 50 @ 1:00\nbreak 0:02\n50 @ 1:00';
    // The break goes on at once, and the swim after it the lead after the command.
    expect(started(text).at(20, { do: 'move-on' }).leaves(1)).toEqual([10, 30]);
    expect(started(text).at(20, { do: 'move-on' }).refusal(29.8, { do: 'undo' })).toBe(SWUM);
  });

  it('[undo] where there was nothing to stop', () => {
    const stopped = started('One\n2 x 50 @ 1:00\nbreak 0:02\n50 @ 1:00').at(15, { do: 'stop' });
    expect(stopped.at(20, { do: 'move-on' }).refusal(29.8, { do: 'undo' })).toBe(SWUM);
    // Out of a break, whose swim would have left at 1:40 by itself.
    const inBreak = started('One\n50 @ 1:00\nbreak 0:30\n50 @ 1:00').at(92, { do: 'move-on' });
    expect(inBreak.refusal(99.8, { do: 'undo' })).toBe(
      'Too late to undo: without that command, lanes would already have left.',
    );
  });
});
