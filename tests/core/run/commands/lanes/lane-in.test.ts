// Lanes that come in: at once in a swim that is going, else from the next stretch on.

import { describe, expect, it } from 'vitest';
import { Deck } from '../../../../support/run/deck.ts';

/** Lines 3 and 4 are the sets; started at 0, so T0 is 0:10. */
const SETS = 'lane 1\nlane 2\n4 x 50 free @ 1:00/1:10\n2 x 100 kick @ 2:00';
const PARTS = 'lane 1\nlane 2\nOne\n2 x 50 @ 1:00\ntalk 1:00\nTwo\n50 @ 1:00';

const started = (text = SETS): Deck => new Deck(text).at(0, { do: 'start' });

describe('into a swim that is going', () => {
  it('[lane-in] at once, in the timetable of the stretch moved by the least displacement; what is due within the lead is missed', () => {
    const deck = started()
      .at(5, { do: 'lane-out', lanes: [2] })
      .at(30, { do: 'shift', seconds: 5 });
    deck.at(75, { do: 'lane-in', lanes: [2] });
    // Planned 0:10 + 70 k, moved by 5: 1:25 is the lead away.
    expect(deck.leaves(2)).toEqual([85, 155, 225, 295, 415]);
    const missed = started()
      .at(5, { do: 'lane-out', lanes: [2] })
      .at(75.001, { do: 'lane-in', lanes: [2] });
    expect(missed.leaves(2)).toEqual([150, 220, 290, 410]);
  });

  it('[lane-in] the least displacement is that of the lanes taking part', () => {
    const deck = started('lane 1\nlane 2\nlane 3\n4 x 50 @ 1:00')
      .at(5, { do: 'lane-out', lanes: [2] })
      .at(20, { do: 'shift', seconds: 10, lanes: [1] })
      .at(21, { do: 'shift', seconds: 5, lanes: [3] });
    expect(deck.at(30, { do: 'lane-in', lanes: [2] }).leaves(2)).toEqual([75, 135, 195]);
    expect(deck.state.lanes[1]!.displacement).toBe(5000);
    // Those that are in go on as they were.
    expect(deck.leaves(1)).toEqual([10, 80, 140, 200]);
    expect(deck.leaves(3)).toEqual([10, 75, 135, 195]);
  });

  it('[lane-in] during the countdown it swims all of it, and its swimmers count for the end', () => {
    const deck = new Deck('lane 1\nlane 2 4 swimmers\n2 x 50 @ 1:00').at(0, { do: 'lane-out', lanes: [2] });
    deck.at(1, { do: 'start' }).at(5, { do: 'lane-in', lanes: [2] });
    expect(deck.leaves(2)).toEqual([15, 75]);
    // 0:15 and two intervals, and three more swimmers 5 s apart.
    expect(deck.settled(Infinity).doneAt).toBe(150_000);
    expect(deck.projected(5)).toBe(150);
  });

  it('[lane-in] what has missed everything takes no part until the next stretch', () => {
    const deck = started(PARTS)
      .at(5, { do: 'lane-out', lanes: [2] })
      .at(61, { do: 'lane-in', lanes: [2] });
    expect(deck.state.lanes[1]).toMatchObject({ in: true, takesPart: false, next: 0, reps: [] });
    deck.at(200, { do: 'start' });
    expect(deck.leaves(2)).toEqual([210]);
  });

  it('[lane-in] stopped with the others where everyone still to leave is stopped', () => {
    const deck = started()
      .at(5, { do: 'lane-out', lanes: [2] })
      .at(20, { do: 'stop' })
      .at(30, { do: 'lane-in', lanes: [2] });
    expect(deck.leaves(2, 500)).toEqual([]);
    expect(deck.at(100, { do: 'resume' }).leaves(1, 200)).toEqual([10, 110, 170]);
    expect(deck.leaves(2, 200)).toEqual([120, 190]);
  });

  it('[lane-in] stopped with the lanes of the last stop, only where every pending one is stopped', () => {
    const deck = started('lane 1\nlane 2\nlane 3\n4/4/1 x 50 @ 1:00')
      .at(5, { do: 'lane-out', lanes: [2] })
      .at(20, { do: 'stop', lanes: [1] });
    const stoppedBy = () => deck.at(30, { do: 'lane-in', lanes: [2] }).state.lanes[1]!.stoppedBy;
    expect(stoppedBy()).toBe(1);
    const twice = started('lane 1\nlane 2\nlane 3\n4 x 50 @ 1:00')
      .at(5, { do: 'lane-out', lanes: [2] })
      .at(20, { do: 'stop', lanes: [3] })
      .at(21, { do: 'stop', lanes: [1] });
    expect(twice.at(30, { do: 'lane-in', lanes: [2] }).state.lanes[1]!.stoppedBy).toBe(2);
    const oneGoes = started('lane 1\nlane 2\nlane 3\n4 x 50 @ 1:00')
      .at(5, { do: 'lane-out', lanes: [2] })
      .at(20, { do: 'stop', lanes: [1] });
    expect(oneGoes.at(30, { do: 'lane-in', lanes: [2] }).leaves(2)).toEqual([70, 130, 190]);
  });

  it('[lane-in] at once, where nothing is pending and no Stop holds what follows', () => {
    const deck = started('lane 1\nlane 2\n1/3 x 50 @ 1:00').at(5, { do: 'lane-out', lanes: [2] });
    expect(deck.at(30, { do: 'lane-in', lanes: [2] }).leaves(2)).toEqual([70, 130]);
  });

  it('[lane-in] into an untimed last set that nobody takes part in any more, it has missed its leave', () => {
    const deck = started('lane 1\nlane 2\n100 easy').at(5, { do: 'lane-out', lanes: [2] });
    deck.at(20, { do: 'lane-in', lanes: [2] }).at(21, { do: 'lane-out', lanes: [1] });
    expect(deck.state).toMatchObject({ phase: 'going' });
    expect(deck.at(22, { do: 'lane-in', lanes: [1] }).settled(Infinity).lanes[0]).toMatchObject({ reps: [] });
  });
});

describe('from the next stretch on', () => {
  it('[lane-in] while waiting, with nothing pending until then', () => {
    const deck = new Deck(PARTS).at(0, { do: 'lane-out', lanes: [2] }).at(1, { do: 'lane-in', lanes: [2] });
    expect(deck.state.lanes[1]).toMatchObject({ in: true, takesPart: false, reps: [] });
    expect(deck.at(5, { do: 'start' }).leaves(2)).toEqual([15, 75]);
  });

  it('[lane-in] during a talk', () => {
    const deck = started(PARTS)
      .at(5, { do: 'lane-out', lanes: [2] })
      .at(140, { do: 'lane-in', lanes: [2] });
    expect(deck.state).toMatchObject({ phase: 'going', index: 1 });
    expect(deck.at(200, { do: 'start' }).leaves(2)).toEqual([210]);
  });
});

describe('what it is refused for', () => {
  it('[lane-in] a lane that does not exist, or is in already', () => {
    const deck = started().at(5, { do: 'lane-out', lanes: [2] });
    expect(deck.refusal(20, { do: 'lane-in', lanes: [2, 7] })).toBe('There is no lane 7.');
    expect(deck.refusal(20, { do: 'lane-in', lanes: [2, 1] })).toBe('Lane 1 is already in.');
  });
});
