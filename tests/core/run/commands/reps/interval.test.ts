// The interval of a line, longer or shorter from a lane's next rep on.

import { describe, expect, it } from 'vitest';
import { Deck } from '../../../../support/run/deck.ts';

/** Lines 3 and 4 are the sets; started at 0, so T0 is 0:10. */
const SETS = 'lane 1\nlane 2\n4 x 50 free @ 1:00/1:10\n2 x 100 kick @ 2:00';
const TOO_SHORT = 'An interval in lane 1 would become 0 or less: choose a smaller change.';
const TOO_LONG = 'An interval in lane 1 would become more than 1:00:00: choose a smaller change.';

const started = (text = SETS): Deck => new Deck(text).at(0, { do: 'start' });

describe('what gets longer', () => {
  it('[interval] every interval of the line to come is longer, the one running too where it is of that line', () => {
    const deck = started().at(20, { do: 'interval', seconds: 5, lanes: [1] });
    expect(deck.leaves(1)).toEqual([10, 75, 140, 205, 270, 390]);
    expect(deck.settled(20).lanes[0]!.end).toBe(510_000);
    const last = started().at(200, { do: 'interval', seconds: -10, lanes: [1] });
    // The next rep is the first of line 4: the interval of line 3 that is running stays.
    expect(last.leaves(1)).toEqual([10, 70, 130, 190, 250, 360]);
  });

  it('[interval] a rep repeated after it moves the others on by the interval that is running now', () => {
    const deck = started().at(20, { do: 'interval', seconds: 5, lanes: [1] });
    expect(deck.at(21, { do: 'repeat', lanes: [1] }).reps(1, 210)).toEqual([
      '3.1 at 10',
      '3.1 at 75',
      '3.2 at 140',
      '3.3 at 205',
    ]);
  });

  it('[interval] a rep swum again is of its line too, and a cut still leaves it alone', () => {
    const deck = started('3 x 50 @ 1:00').at(20, { do: 'repeat' }).at(21, { do: 'interval', seconds: 5 });
    expect(deck.reps(1)).toEqual(['1.1 at 10', '1.1 at 75', '1.2 at 140', '1.3 at 205']);
    expect(deck.at(22, { do: 'cut', line: 1, n: 2 }).reps(1)).toEqual(['1.1 at 10', '1.1 at 75']);
  });

  it('[interval] later stretches and a restart have it, in that lane and of that line; what is over stays as it was', () => {
    const text = 'lane 1\nlane 2\n3 rounds\n  2 x 50 @ 1:00\n  100 @ 2:00\n  talk 0:30';
    const round = (of: number) => ({ do: 'go-to', line: 4, rounds: [of], rep: 1 }) as const;
    const deck = new Deck(text).at(0, round(2)).at(1, { do: 'start' });
    deck.at(20, { do: 'interval', seconds: 5, lanes: [1] });
    const offsets = (lane: number) =>
      deck.state.stretches.flatMap(({ lanes }) => (lanes[lane] ? [lanes[lane].reps.map(({ offset }) => offset)] : []));
    expect(offsets(0)).toEqual([
      [0, 60_000, 120_000],
      [0, 65_000, 130_000],
      [0, 65_000, 130_000],
    ]);
    expect(offsets(1)).toEqual(offsets(1).map(() => [0, 60_000, 120_000]));
    const lengths = deck.state.stretches.flatMap(({ lanes }) => lanes.map(({ length }) => length / 1000));
    expect(lengths).toEqual([240, 240, 250, 240, 250, 240]);
    deck.at(30, { do: 'restart' }).at(40, { do: 'start' });
    expect(deck.leaves(1).slice(1)).toEqual([50, 115, 180]);
    expect(deck.leaves(2).slice(1)).toEqual([50, 110, 170]);
  });

  it('[interval] the next stretch by itself has it too', () => {
    const deck = started('2 rounds\n  2 x 50 @ 1:00\n  talk 0:30').at(20, { do: 'interval', seconds: 5 });
    deck.at(300, { do: 'start' });
    expect(deck.leaves(1, 400)).toEqual([10, 75, 310, 375]);
  });
});

describe('what it is refused for', () => {
  it('[interval] one that does not stay above 0, or sends a lane off too soon', () => {
    const text = '2 rounds\n  2 x 50 @ 1:00\n  talk 0:30';
    expect(started(text).refusal(20, { do: 'interval', seconds: -60 })).toBe(TOO_SHORT);
    expect(started(text).refusal(62, { do: 'interval', seconds: -5 })).toMatch(/Too soon/);
  });

  it('[interval] of the stretch that is going, all of them count, those of the reps that have left too', () => {
    // After two reps: 0:10 and 0:40 have left, 1:10 and 1:40 are to come.
    const rising = started('4 x 50 @ 0:10 add 30').at(30, { do: 'stop' });
    expect(rising.refusal(31, { do: 'interval', seconds: -10 })).toBe(TOO_SHORT);
    expect(rising.at(31, { do: 'interval', seconds: -9 }).at(32, { do: 'resume' }).leaves(1, 60)).toEqual([10, 20, 51]);
    // 0:59:55 and 0:59:25 have left.
    const falling = started('4 x 50 @ 59:55 drop 30');
    expect(falling.refusal(4000, { do: 'interval', seconds: 6 })).toBe(TOO_LONG);
    falling.at(4000, { do: 'interval', seconds: 5 });
    expect(falling.state.stretches[0]!.lanes[0]!.reps[0]!.interval).toBe(3_600_000);
  });

  it('[interval] those of a later stretch count, as far as they are still to be swum', () => {
    // The second round swims 1:00 and 59:55.
    const text = '2 rounds\n  2 x 50 @ 1:00 add 58:55\n  talk 0:30';
    const first = { do: 'go-to', line: 2, rounds: [1], rep: 1 } as const;
    expect(started(text).refusal(20, { do: 'interval', seconds: 6 })).toBe(TOO_LONG);
    const deck = new Deck(text).at(0, { do: 'cut', line: 2, n: 1 }).at(1, first).at(2, { do: 'start' });
    expect(deck.at(5, { do: 'interval', seconds: 6 }).settled(5).lanes[0]!.end).toBe(81_000);
  });

  it('[interval] those of other lines do not count', () => {
    const deck = started('2 x 50 @ 1:00\n100 @ 1:00:00').at(20, { do: 'interval', seconds: 5 });
    expect(deck.leaves(1)).toEqual([10, 75, 140]);
    expect(deck.settled(20).lanes[0]!.end).toBe(3_740_000);
  });

  it('[interval] the one running counts, also where a cut has taken its rep out of the stretch', () => {
    const text = '2 rounds\n  2 x 50 @ 1:00 add 58:55';
    const deck = started(text).at(71, { do: 'cut', line: 2, n: 1 });
    expect(deck.leaves(1)).toEqual([10, 70, 3665]);
    expect(deck.refusal(72, { do: 'interval', seconds: 6 })).toBe(TOO_LONG);
    expect(deck.at(72, { do: 'interval', seconds: 5 }).leaves(1)).toEqual([10, 70, 3670]);
  });

  it('[interval] that of a rep swum again counts, where cuts have taken it out of the stretch', () => {
    const deck = new Deck('5 x 100 @ 2:00 drop 25').at(0, { do: 'start' }).at(300, { do: 'repeat' });
    deck.at(301, { do: 'cut', line: 1, n: 2 }).at(302, { do: 'stop' });
    expect(deck.refusal(303, { do: 'interval', seconds: -50 })).toBe(TOO_SHORT);
    expect(deck.state.lanes[0]!.reps.slice(deck.state.lanes[0]!.next).every(({ interval }) => interval > 0)).toBe(true);
    // 0:20 again, then 1:00.
    const again = started('2 rounds\n  2 x 50 @ 1:00 drop 40')
      .at(71, { do: 'repeat' })
      .at(72, { do: 'cut', line: 2, n: 1 });
    again.at(73, { do: 'stop' });
    expect(again.refusal(74, { do: 'interval', seconds: -20 })).toBe(TOO_SHORT);
  });

  it('[interval] none is running before the first leave of a stretch', () => {
    expect(
      started()
        .at(5, { do: 'interval', seconds: 5, lanes: [1] })
        .leaves(1, 140),
    ).toEqual([10, 75, 140]);
    // The last rep of the first round, 59:55, belongs to a stretch that is over.
    const deck = started('2 rounds\n  2 x 50 @ 1:00 add 58:55\n  talk 0:30');
    deck.at(3700, { do: 'cut', line: 2, n: 1 }).at(3701, { do: 'start' });
    expect(deck.at(3702, { do: 'interval', seconds: 6 }).leaves(1)).toEqual([10, 70, 3715]);
  });
});
