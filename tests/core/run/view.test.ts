/*
 * What a view gives by name, for every t.
 */

import { describe, expect, test } from 'vitest';
import { Deck } from '../../support/run/deck.ts';

const TWO = 'lane 1, 3 swimmers\nlane 2\nOne\n2/4 x 50 free @ 1:00\nTwo\n50 @ 1:00';
/** T0 is 0:10, or 0:15 where the clock is asked before. */
const started = (text = TWO, at = 0) => new Deck(text).at(at, { do: 'start' });

describe('[view] the clock', () => {
  const clock = (deck: Deck, seconds: number) => {
    const { from, startsIn, t0 } = deck.view(seconds).clock;
    return [from, startsIn, t0];
  };

  test('has no zero before the first start, and counts down the last 10 s before T0', () => {
    expect(clock(new Deck(TWO), 1)).toEqual([null, null, null]);
    const deck = started(TWO, 1);
    expect(clock(deck, 4.999)).toEqual([null, null, 15_000]);
    expect(clock(deck, 5)).toEqual([null, 10_000, 15_000]);
    expect(clock(deck, 14.999)).toEqual([null, 1, 15_000]);
    expect(clock(deck, 15)).toEqual([15_000, null, 15_000]);
  });

  test('counts nothing down where all lanes are stopped, and does where one is not', () => {
    expect(clock(started().at(2, { do: 'stop' }), 5)[1]).toBe(null);
    expect(clock(started().at(2, { do: 'stop', lanes: [2] }), 5)[1]).toBe(5000);
  });

  test('counts from the last T0 while the run waits, and until the next', () => {
    const deck = started().at(80, { do: 'move-on' });
    expect(clock(deck, 81)).toEqual([10_000, null, null]);
    deck.at(84, { do: 'start' });
    expect(clock(deck, 90)).toEqual([10_000, 5000, 95_000]);
    expect(clock(deck, 95)).toEqual([95_000, null, 95_000]);
  });

  test('tells what the pool’s clock shows at t = 0', () => {
    const deck = new Deck(TWO, 7);
    expect(deck.view(1).clock.poolPhase).toBe(7000);
    expect(deck.at(1, { do: 'start' }).view(2).clock.poolPhase).toBe(7000);
  });
});

describe('[view] a lane', () => {
  const states = (deck: Deck, seconds: number) => deck.view(seconds).lanes.map(({ state }) => state);

  test('is pending while it has something to leave, and finished once it has left all it had', () => {
    expect(states(new Deck(TWO), 1)).toEqual(['pending', 'pending']);
    expect(states(started(), 20)).toEqual(['pending', 'pending']);
    expect(states(started(), 75)).toEqual(['finished', 'pending']);
  });

  test('is absent where it has nothing to swim here, or came too late for all of it', () => {
    const text = 'lane 1\nlane 2\n0/2 x 50 @ 1:00\nbreak 0:30\n50 @ 1:00';
    expect(states(new Deck(text), 1)).toEqual(['absent', 'pending']);
    expect(states(started(text), 20)).toEqual(['absent', 'pending']);
    const late = new Deck(TWO).at(0, { do: 'lane-out', lanes: [1] }).at(1, { do: 'start' });
    expect(states(late.at(70, { do: 'lane-in', lanes: [1] }), 71)).toEqual(['absent', 'pending']);
    expect(states(started('50 @ 1:00\nbreak 0:30\n50 @ 1:00'), 80)).toEqual(['absent']);
    expect(states(started().at(20, { do: 'finish' }), 21)).toEqual(['absent', 'absent']);
  });

  test('sits out where it left for nothing here, from the countdown on', () => {
    const deck = started()
      .at(1, { do: 'sit-out', lanes: [1] })
      .at(2, { do: 'sit-out', lanes: [1] });
    expect([3, 20].map((seconds) => states(deck, seconds)[0])).toEqual(['sits-out', 'sits-out']);
    expect(states(deck.at(4, { do: 'undo' }), 5)[0]).toBe('pending');
  });

  test('sits its last reps out once what it has left for is swum', () => {
    const text = 'lane 1\nlane 2\nOne\n4 x 50 @ 1:00';
    const deck = started(text);
    for (const at of [80, 81]) deck.at(at, { do: 'sit-out', lanes: [1] });
    expect([82, 129.999, 130, 200].map((seconds) => states(deck, seconds)[0])).toEqual([
      'finished',
      'finished',
      'sits-out',
      'sits-out',
    ]);
    expect(deck.view(90).lanes[0]!.end).toBe(130_000);
    // A rep that is swum again is swum.
    expect(states(deck.at(131, { do: 'repeat', lanes: [1] }), 251)).toEqual(['finished', 'finished']);
    expect(deck.view(251).lanes[0]!.end).toBe(310_000);
  });

  test('has nothing to swim where all it had was skipped before it left', () => {
    const deck = started()
      .at(1, { do: 'skip', lanes: [1] })
      .at(2, { do: 'skip', lanes: [1] });
    expect([3, 20].map((seconds) => states(deck, seconds)[0])).toEqual(['absent', 'absent']);
  });

  test('is stopped or out where it is', () => {
    expect(states(started().at(20, { do: 'stop', lanes: [2] }), 21)).toEqual(['pending', 'stopped']);
    expect(states(started().at(20, { do: 'lane-out', lanes: [2] }), 21)).toEqual(['pending', 'out']);
    expect(states(new Deck(TWO).at(0, { do: 'lane-out', lanes: [2] }), 1)).toEqual(['pending', 'out']);
    const [, out] = new Deck(TWO).at(0, { do: 'lane-out', lanes: [2] }).view(1).lanes;
    expect([out!.next, out!.after]).toEqual([null, null]);
  });

  test('has its rep to come and the one after, with no time while the run waits', () => {
    const coming = (deck: Deck, seconds: number, lane = 0) => {
      const { next, after } = deck.view(seconds).lanes[lane]!;
      return [next, after].map((each) => each && [each.rep.rep, each.of, each.words, each.at]);
    };
    expect(coming(new Deck(TWO), 1)).toEqual([
      [1, 2, 'free', null],
      [2, 2, 'free', null],
    ]);
    expect(coming(new Deck(TWO).at(0, { do: 'go-to', line: 4, rep: 2 }), 1)).toEqual([[2, 2, 'free', null], null]);
    expect(coming(started(), 20)).toEqual([[2, 2, 'free', 70_000], null]);
    expect(coming(started(), 20, 1)).toEqual([
      [2, 4, 'free', 70_000],
      [3, 4, 'free', 130_000],
    ]);
    expect(coming(started(), 75)).toEqual([null, null]);
  });

  test('shows a leave that a command found on its way as to come until it is due', () => {
    const deck = started().at(9.8, { do: 'stop' });
    const shown = (seconds: number) => {
      const { next, after, last, pending } = deck.view(seconds).lanes[0]!;
      return [next && [next.rep.rep, next.at], after && [after.rep.rep, after.at], last && last.at, pending];
    };
    expect(shown(9.9)).toEqual([[1, 10_000], [2, 70_000], null, true]);
    expect(shown(10)).toEqual([[2, 70_000], null, 10_000, true]);
    const later = started('4 x 50 @ 1:00').at(69.8, { do: 'stop' }).view(69.9).lanes[0]!;
    expect([later.next!.at, later.after!.at]).toEqual([70_000, 130_000]);
  });

  test('has its last leave with how many swimmers are away', () => {
    const last = (seconds: number) => {
      const { away, swimmers, tailAt, at, of } = started().view(seconds).lanes[0]!.last!;
      return [away, swimmers, tailAt, at, of];
    };
    expect([10, 14.999, 15, 20, 60].map((seconds) => last(seconds)[0])).toEqual([1, 1, 2, 3, 3]);
    expect(last(12)).toEqual([1, 3, 20_000, 10_000, 2]);
    expect(started().view(5).lanes[0]!.last).toBe(null);
  });

  test('tells its swimmers, gap, end, and whether it has left here', () => {
    const lane = (seconds: number) => {
      const { number, swimmers, gap, end, leftHere, pending } = started().view(seconds).lanes[0]!;
      return [number, swimmers, gap, end, leftHere, pending];
    };
    expect(lane(5)).toEqual([1, 3, 5000, 130_000, false, true]);
    expect(lane(20)).toEqual([1, 3, 5000, 130_000, true, true]);
    expect(lane(75)).toEqual([1, 3, 5000, 130_000, true, false]);
  });
});

describe('[view] a stop', () => {
  const where = (deck: Deck, seconds: number) =>
    deck.view(seconds).lanes.map(({ stop, resumeAt, rejoinAt }) => [stop, resumeAt, rejoinAt]);

  test('where Resume would put the lanes of one stop: at their times while there are 10 s, else together later', () => {
    const deck = () => started('lane 1\nlane 2\n4 x 50 @ 1:00/1:10').at(20, { do: 'stop' });
    expect(where(deck(), 60)).toEqual([
      [1, 70_000, 70_000],
      [1, 80_000, 80_000],
    ]);
    expect(where(deck(), 60.001)).toEqual([
      [1, 75_000, 130_000],
      [1, 85_000, 80_000],
    ]);
    expect(where(deck(), 185)).toEqual([
      [1, 195_000, null],
      [1, 205_000, 220_000],
    ]);
  });

  test('Resume keeps a time that is just 10 s ahead, be it no round reading', () => {
    const deck = started('4 x 50 @ 1:00').at(20, { do: 'shift', seconds: 3 }).at(21, { do: 'stop' });
    expect([63, 63.001].map((seconds) => where(deck, seconds)[0]![1])).toEqual([73_000, 75_000]);
  });

  test('Rejoin is never at a leave that is over, though a shift would put it ahead', () => {
    const deck = started('4 x 25 @ 0:15').at(12, { do: 'shift', seconds: 20 }).at(13, { do: 'stop' });
    expect(where(deck, 13)[0]![2]).toBe(45_000);
  });

  test('lanes of different stops go by themselves, and one that is not stopped has neither time', () => {
    const deck = started('lane 1\nlane 2\nlane 3\n4 x 50 @ 1:00/1:10/1:20').at(20, { do: 'stop', lanes: [1] });
    deck.at(21, { do: 'stop', lanes: [2] });
    expect(where(deck, 62)).toEqual([
      [1, 75_000, 130_000],
      [2, 80_000, 80_000],
      [null, null, null],
    ]);
    const { lastStop, stoppedAt } = deck.view(62);
    expect([lastStop, stoppedAt, started().view(5).lastStop, started().view(5).stoppedAt]).toEqual([
      2,
      21_000,
      0,
      -Infinity,
    ]);
  });

  test('of all that is pending is told, and which lanes alone keep the stretch open', () => {
    const open = (deck: Deck, seconds: number) => {
      const { allStopped, heldOpenBy } = deck.view(seconds);
      return [allStopped, heldOpenBy];
    };
    expect(open(new Deck(TWO), 1)).toEqual([false, []]);
    expect(open(started(), 75)).toEqual([false, []]);
    expect(open(started().at(20, { do: 'stop' }), 21)).toEqual([true, []]);
    expect(open(started().at(20, { do: 'stop', lanes: [2] }), 21)).toEqual([false, []]);
    expect(open(started().at(20, { do: 'stop', lanes: [2] }), 75)).toEqual([true, [2]]);
    expect(
      open(
        started()
          .at(5, { do: 'lane-out', lanes: [1] })
          .at(20, { do: 'stop' }),
        21,
      ),
    ).toEqual([true, []]);
    const three = started('lane 1\nlane 2\nlane 3\n1/3/4 x 50 @ 1:00').at(15, { do: 'stop', lanes: [2] });
    expect(open(three, 80)).toEqual([false, []]);
    expect(open(three.at(81, { do: 'stop', lanes: [3] }), 82)).toEqual([true, [2, 3]]);
  });
});

describe('[view] what follows', () => {
  const text = 'between auto 0:30\nOne\n50 @ 1:00\ntalk 1:00\n50 @ 1:00\nTwo\n50 @ 1:00';
  const follows = (deck: Deck, seconds: number) => {
    const { following, followingWaits, held, followsAt, pauseEnd } = deck.view(seconds);
    return [following && `${following.part} ${following.kind}`, followingWaits, held, followsAt, pauseEnd];
  };

  test('waits for the word after a talk, begins by itself after a set, and is none after the last', () => {
    expect(follows(new Deck(text), 1)).toEqual(['One talk', false, false, null, null]);
    expect(follows(started(text), 20)).toEqual(['One talk', false, false, 70_000, null]);
    expect(follows(started(text), 80)).toEqual(['One swim', true, false, null, 130_000]);
    const last = started(text).at(131, { do: 'start' });
    expect(follows(last, 150)).toEqual(['Two swim', false, false, 235_000, null]);
    expect(follows(last, 240)).toEqual([null, false, false, null, null]);
  });

  test('no pause ends while the run waits for it, or is done', () => {
    const deck = new Deck('talk 1:00\n50 @ 1:00');
    expect(deck.view(1).pauseEnd).toBe(null);
    expect(deck.at(1, { do: 'start' }).view(2).pauseEnd).toBe(61_000);
    expect(deck.at(3, { do: 'finish' }).view(4).pauseEnd).toBe(null);
  });

  test('is held by a Stop of all only where it would begin by itself', () => {
    const held = (deck: Deck, seconds: number) => deck.view(seconds).held;
    expect(held(started(text).at(20, { do: 'stop' }), 21)).toBe(true);
    expect(held(started(text).at(80, { do: 'stop' }), 81)).toBe(false);
    expect(held(started('2 x 50 @ 1:00').at(20, { do: 'stop' }), 21)).toBe(false);
    const three = `${text}\nThree\n50 @ 1:00`;
    expect(held(started(three).at(20, { do: 'stop' }).at(21, { do: 'move-on' }), 22)).toBe(false);
    expect(held(started(text).at(20, { do: 'stop' }).at(21, { do: 'restart' }), 22)).toBe(false);
  });
});

describe('[view] the session', () => {
  test('its projected end is that of its last stretch, and once it is done when that was', () => {
    const now = started().view(20);
    expect(now.projectedTimes).toHaveLength(2);
    expect(now.projectedEnd).toBe(now.projectedTimes[1]!.end);
    expect(now.projectedTimes).toBe(now.projectedTimes);
    const done = started().at(20, { do: 'finish' }).view(30);
    expect([done.projectedTimes, done.projectedEnd, done.phase]).toEqual([[], 20_000, 'done']);
  });

  test('Undo is offered for 10 s, those included, and only for what was commanded', () => {
    expect(new Deck(TWO).view(1).undo).toBe(null);
    const deck = started();
    const undo = { command: { do: 'start' }, at: 0, until: 10_000 };
    expect([deck.view(3).undo, deck.view(10).undo, deck.view(10.001).undo]).toEqual([undo, undo, null]);
    const later = started()
      .at(5, { do: 'stop', lanes: [2] })
      .at(6, { do: 'mark', words: 'cramp' });
    expect(later.view(7).undo).toEqual({ command: { do: 'stop', lanes: [2] }, at: 5000, until: 15_000 });
    expect(later.view(7).marks).toEqual([{ at: 6000, lanes: [], words: 'cramp' }]);
  });

  test('its cuts, stretches, and the current one among them', () => {
    const now = started().at(20, { do: 'cut', line: 4, n: 1 }).view(21);
    expect([[...now.cuts], now.stretches.length, now.index, now.stretch === now.stretches[0], now.t]).toEqual([
      [[4, 1]],
      2,
      0,
      true,
      21_000,
    ]);
  });
});
