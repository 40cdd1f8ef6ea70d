import { describe, expect, it } from 'vitest';
import { Deck } from '../../support/deck.ts';

/** Lines 3 and 4 are the sets; started at 0, so T0 is 0:10. */
const SETS = 'lane 1\nlane 2\n4 x 50 free @ 1:00/1:10\n2 x 100 kick @ 2:00';

function started(text = SETS): Deck {
  return new Deck(text).at(0, { do: 'start' });
}

describe('stop, resume and rejoin', () => {
  it('[resume] a stop ended the lead before the next leave costs nothing', () => {
    const deck = started().at(20, { do: 'stop' }).at(60, { do: 'resume' });
    expect(deck.leaves(1, 200)).toEqual([10, 70, 130, 190]);
    expect(deck.leaves(2, 200)).toEqual([10, 80, 150]);
  });

  it('[resume] a later one restarts on a round reading, the lanes of the stop keeping their places', () => {
    const deck = started().at(20, { do: 'stop' }).at(61, { do: 'resume' });
    // The earliest, lane 1 at 1:10, goes to 1:15; lane 2 moves by the same 5 s.
    expect(deck.leaves(1, 200)).toEqual([10, 75, 135, 195]);
    expect(deck.leaves(2, 200)).toEqual([10, 85, 155]);
    expect(deck.state.lanes.map((lane) => lane.displacement)).toEqual([5000, 5000]);
  });

  it('[resume] lanes stopped by different commands are placed each for itself', () => {
    const deck = started()
      .at(20, { do: 'stop', lanes: [1] })
      .at(21, { do: 'stop' });
    expect(deck.at(100, { do: 'resume' }).leaves(1, 170)).toEqual([10, 110, 170]);
    expect(deck.leaves(2, 170)).toEqual([10, 110]);
  });

  it('[rejoin] what is due within the lead is dropped and nothing moves', () => {
    const deck = started()
      .at(20, { do: 'stop', lanes: [1] })
      .at(120.001, { do: 'rejoin', lanes: [1] });
    expect(deck.leaves(1, 330)).toEqual([10, 190, 250]);
    const just = started()
      .at(20, { do: 'stop', lanes: [1] })
      .at(120, { do: 'rejoin', lanes: [1] });
    expect(just.leaves(1, 200)).toEqual([10, 130, 190]);
  });

  it('[R4] losing its last pending rep ends a stop', () => {
    const deck = started('3 x 50 @ 1:00\nTwo\n50 @ 1:00').at(0, { do: 'undo' });
    expect(deck.state.phase).toBe('waiting');
    deck.at(0, { do: 'start' }).at(75, { do: 'stop' }).at(80, { do: 'skip' });
    expect(deck.state.lanes[0]!.stoppedBy).toBeNull();
    expect(deck.settled(200)).toMatchObject({ phase: 'waiting', index: 1 });
  });

  it('[stop] in a talk lanes cannot be stopped; all of them means that what follows waits', () => {
    const deck = new Deck('50 @ 1:00\nbreak 0:30\n50 @ 1:00').at(0, { do: 'start' });
    expect(deck.refusal(80, { do: 'stop', lanes: [1] })).toMatch(/use Stop for all lanes/);
    expect(deck.at(80, { do: 'stop' }).settled(300)).toMatchObject({ phase: 'waiting', index: 2 });
  });

  it('refuses lanes that do not exist, are out or have nothing pending, and passes over the rest', () => {
    const deck = started();
    expect(deck.refusal(20, { do: 'stop', lanes: [1, 7] })).toBe('There is no lane 7.');
    expect(deck.refusal(20, { do: 'resume' })).toBe('No lane is stopped.');
    deck.at(20, { do: 'lane-out', lanes: [2] });
    expect(deck.refusal(21, { do: 'stop', lanes: [2] })).toBe('Lane 2 is out.');
    deck.at(22, { do: 'stop', lanes: [1] });
    expect(deck.refusal(23, { do: 'stop' })).toMatch(/is going: each is stopped already/);
  });
});

describe('skip, sit out and repeat', () => {
  it('[skip] the next rep is dropped, what follows and the end come sooner by its interval', () => {
    const deck = started().at(20, { do: 'skip', lanes: [2] });
    expect(deck.reps(2)).toEqual(['3.1 at 10', '3.3 at 80', '3.4 at 150', '4.1 at 220', '4.2 at 340']);
    expect(deck.settled(20).lanes[1]!.end).toBe((10 + 3 * 70 + 240) * 1000);
  });

  it('[sit-out] the next rep is dropped and nothing moves', () => {
    const deck = started().at(20, { do: 'sit-out', lanes: [2] });
    expect(deck.reps(2)).toEqual(['3.1 at 10', '3.3 at 150', '3.4 at 220', '4.1 at 290', '4.2 at 410']);
    expect(deck.settled(20).lanes[1]!.end).toBe((10 + 4 * 70 + 240) * 1000);
  });

  it('[repeat] the last rep is swum again in the place of the next, which moves on by its interval', () => {
    const deck = started().at(20, { do: 'repeat', lanes: [1] });
    expect(deck.reps(1, 260)).toEqual(['3.1 at 10', '3.1 at 70', '3.2 at 130', '3.3 at 190', '3.4 at 250']);
  });

  it('[repeat] with nothing pending it goes at the later of the end and the lead, on a round reading', () => {
    const text = 'lane 1\nlane 2\n2/4 x 50 @ 1:02';
    expect(
      started(text)
        .at(80, { do: 'repeat', lanes: [1] })
        .leaves(1),
    ).toEqual([10, 72, 134]);
    const late = started(text).at(130, { do: 'repeat', lanes: [1] });
    expect(late.leaves(1)).toEqual([10, 72, 140]);
    expect(late.state.lanes[0]!.end).toBe(202_000);
  });

  it('[repeat] only lanes that have left a rep since they began to take part', () => {
    expect(started().refusal(5, { do: 'repeat' })).toMatch(/there is no rep to repeat/);
  });

  it('a timed block: skipping its last rep brings what follows sooner by the interval, not by what is left over', () => {
    const deck = started('4:30 of 50s @ 2:00\n50 @ 1:00');
    expect(deck.reps(1)).toEqual(['1.1 at 10', '1.2 at 130', '2.1 at 280']);
    expect(deck.at(20, { do: 'skip' }).reps(1)).toEqual(['1.1 at 10', '2.1 at 160']);
  });
});

describe('shift and interval', () => {
  it('[interval] a rep swum again stays above 0 too, where cuts have taken it out of the stretch', () => {
    const deck = new Deck('5 x 100 @ 2:00 drop 25').at(0, { do: 'start' }).at(300, { do: 'repeat' });
    deck.at(301, { do: 'cut', line: 1, n: 2 }).at(302, { do: 'stop' });
    expect(deck.refusal(303, { do: 'interval', seconds: -50 })).toMatch(
      /would become 0 or less: choose a smaller change/,
    );
    expect(deck.state.lanes[0]!.reps.slice(deck.state.lanes[0]!.next).every(({ interval }) => interval > 0)).toBe(true);
  });

  it('[shift] pending leaves and the end move; too soon is refused whole', () => {
    const deck = started().at(20, { do: 'shift', seconds: 5 });
    expect(deck.leaves(1, 140)).toEqual([10, 75, 135]);
    expect(deck.refusal(61, { do: 'shift', seconds: -5 })).toMatch(/Too soon: lane 1/);
    expect(deck.at(60, { do: 'shift', seconds: -5, lanes: [1] }).leaves(1, 140)).toEqual([10, 70, 130]);
  });

  it('[shift] a stopped lane moves without a warning to give', () => {
    const deck = started().at(20, { do: 'stop' }).at(65, { do: 'shift', seconds: -5 });
    expect(deck.at(66, { do: 'resume' }).leaves(1, 90)).toEqual([10, 80]);
  });

  it('[shift] in a talk its end moves for everyone, before its T0 the beginning too', () => {
    const deck = new Deck('between auto 1:00\nOne\n50 @ 1:00\nTwo\nbreak 1:00\n50 @ 1:00').at(0, { do: 'start' });
    // The first part ends at 1:10, the break is 2:10 to 3:10.
    expect(deck.at(80, { do: 'shift', seconds: 10 }).view(90).clock.t0).toBe(140_000);
    expect(deck.refusal(150, { do: 'shift', seconds: -50 })).toMatch(/would already be over/);
    expect(deck.at(150, { do: 'shift', seconds: -20 }).leaves(1)).toEqual([10, 180]);
  });

  it('[interval] every interval of the line to come is longer, the one running too where it is of that line', () => {
    const deck = started().at(20, { do: 'interval', seconds: 5, lanes: [1] });
    expect(deck.leaves(1)).toEqual([10, 75, 140, 205, 270, 390]);
    expect(deck.settled(20).lanes[0]!.end).toBe(510_000);
    const last = started().at(200, { do: 'interval', seconds: -10, lanes: [1] });
    // The next rep is the first of line 4: the interval of line 3 that is running stays.
    expect(last.leaves(1)).toEqual([10, 70, 130, 190, 250, 360]);
  });

  it('[interval] later stretches and a restart have it too, intervals keep within their bounds', () => {
    const text = '2 rounds\n  2 x 50 @ 1:00\n  talk 0:30';
    const deck = started(text).at(20, { do: 'interval', seconds: 5 });
    deck.at(300, { do: 'start' });
    expect(deck.leaves(1, 400)).toEqual([10, 75, 310, 375]);
    expect(started(text).refusal(20, { do: 'interval', seconds: -60 })).toMatch(/would become 0 or less/);
    expect(started(text).refusal(62, { do: 'interval', seconds: -5 })).toMatch(/Too soon/);
  });
});

describe('squad', () => {
  it('[lane-out] its pending reps go, one lane stays in, and the stretch no longer waits for it', () => {
    const deck = started().at(20, { do: 'lane-out', lanes: [2] });
    expect(deck.leaves(2)).toEqual([10]);
    expect(deck.settled(Infinity).doneAt).toBe((10 + 4 * 60 + 240) * 1000);
    expect(deck.refusal(21, { do: 'lane-out', lanes: [1] })).toMatch(/At least one lane/);
  });

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

  it('[lane-in] stopped with the others where everyone still to leave is stopped', () => {
    const deck = started()
      .at(5, { do: 'lane-out', lanes: [2] })
      .at(20, { do: 'stop' })
      .at(30, { do: 'lane-in', lanes: [2] });
    expect(deck.leaves(2, 500)).toEqual([]);
    expect(deck.at(100, { do: 'resume' }).leaves(1, 200)).toEqual([10, 110, 170]);
    expect(deck.leaves(2, 200)).toEqual([120, 190]);
  });
});
