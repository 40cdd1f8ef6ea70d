// Lanes that are stopped, and what follows them. What a Stop of all lanes holds: see hold.test.ts.

import { describe, expect, it } from 'vitest';
import { Deck } from '../../../../support/run/deck.ts';

/** Lines 3 and 4 are the sets; started at 0, so T0 is 0:10. */
const SETS = 'lane 1\nlane 2\n4 x 50 free @ 1:00/1:10\n2 x 100 kick @ 2:00';
const NONE_TO_STOP = 'No lane is going: each is stopped already or has no reps to come.';

const started = (text = SETS): Deck => new Deck(text).at(0, { do: 'start' });

describe('stop', () => {
  it('[stop] in a talk lanes cannot be stopped; all of them means that what follows waits', () => {
    const deck = started('50 @ 1:00\nbreak 0:30\n50 @ 1:00');
    expect(deck.refusal(80, { do: 'stop', lanes: [1] })).toBe(
      'This is a talk or break: use Stop for all lanes, not for single ones.',
    );
    expect(deck.at(80, { do: 'stop' }).settled(300)).toMatchObject({ phase: 'waiting', index: 2 });
  });

  it('[stop] refuses lanes that do not exist, are out or have nothing pending, and passes over the rest', () => {
    const deck = started();
    expect(deck.refusal(20, { do: 'stop', lanes: [1, 7] })).toBe('There is no lane 7.');
    expect(deck.refusal(20, { do: 'resume' })).toBe('No lane is stopped.');
    deck.at(20, { do: 'lane-out', lanes: [2] });
    expect(deck.refusal(21, { do: 'stop', lanes: [2] })).toBe('Lane 2 is out.');
    deck.at(22, { do: 'stop', lanes: [1] });
    expect(deck.refusal(23, { do: 'stop' })).toBe(NONE_TO_STOP);
  });

  it('[stop] of those named that are stopped already keeps the stop that holds them', () => {
    const deck = started()
      .at(20, { do: 'stop', lanes: [1] })
      .at(30, { do: 'stop', lanes: [1, 2] });
    expect(deck.state.lanes.map(({ stoppedBy }) => stoppedBy)).toEqual([1, 2]);
  });

  it('[stop] says that those behind follow by themselves, where that alone is still to come', () => {
    const swimmers = 'lane 1 4 swimmers\nlane 2\n';
    const tails = started(`${swimmers}50 @ 1:00`);
    expect(tails.refusal(24.999, { do: 'stop' })).toBe(
      'Every lead has left: the swimmers behind follow and cannot be stopped.',
    );
    expect(tails.refusal(25, { do: 'stop' })).toBe(NONE_TO_STOP);
    const oneStopped = started(`${swimmers}1/2 x 50 @ 1:00`).at(12, { do: 'stop' });
    expect(oneStopped.refusal(13, { do: 'stop' })).toBe(NONE_TO_STOP);
  });

  it('[R5] a stretch stays open while a stopped lane has something pending, whatever the others have', () => {
    const deck = started('lane 1\nlane 2\n2/1 x 50 @ 1:00\nTwo\n50 @ 1:00').at(20, { do: 'stop' });
    expect(deck.settled(9000)).toMatchObject({ phase: 'going', index: 0 });
    expect(deck.at(9000, { do: 'resume' }).leaves(1)).toEqual([10, 9010]);
  });

  it('[R4] losing its last pending rep ends a stop', () => {
    const deck = started('3 x 50 @ 1:00\nTwo\n50 @ 1:00').at(0, { do: 'undo' });
    expect(deck.state.phase).toBe('waiting');
    deck.at(0, { do: 'start' }).at(75, { do: 'stop' }).at(80, { do: 'skip' });
    expect(deck.state.lanes[0]!.stoppedBy).toBeNull();
    expect(deck.settled(200)).toMatchObject({ phase: 'waiting', index: 1 });
  });
});
