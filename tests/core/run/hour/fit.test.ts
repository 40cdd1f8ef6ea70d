import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apply } from '../../../../app/core/run/fold.ts';
import {
  cutsInRounds,
  fit,
  fitPlan,
  singleCuts,
  smallCuts,
  swimDownPart,
  type CutOption,
} from '../../../../app/core/run/hour/fit.ts';
import { projectedEnd } from '../../../../app/core/run/hour/projection.ts';
import { settle } from '../../../../app/core/run/settle.ts';
import { Deck, planOf } from '../../../support/run/deck.ts';
import { evenings } from '../../../support/run/evening.ts';
import { runs } from '../../../support/run/runs.ts';

/** Line 5: rounds of 2 x 50; line 7: 6 x 100; line 9: the swim-down. 19:30 to 19:45, planned 16:00. */
const HOUR = [
  'Harbour',
  'start 19:30',
  'finish 19:45',
  'between 1:00',
  '3 rounds',
  '  2 x 50 @ 1:00',
  '6 x 100 @ 1:00',
  'Swim-down',
  '6 x 50 @ 0:30',
].join('\n');

describe('fitting the hour', () => {
  it('says by how much a plan runs over and when the swim-down must start', () => {
    // 6:00 of rounds, 6:00 of hundreds, a minute between, 3:00 of swim-down.
    expect(fitPlan(planOf(HOUR.replace('19:45', '19:44')))).toMatchObject({ over: 120_000, swimDownBy: 11 * 60_000 });
    expect(fitPlan(planOf(HOUR))).toMatchObject({ over: 60_000, swimDownBy: 12 * 60_000 });
    expect(fitPlan(planOf('4 x 50 @ 1:00'))).toBeNull();
  });

  it('offers single cuts that each bring it back, the most repeated first, and never of the swim-down', () => {
    const { cuts, serves } = fitPlan(planOf(HOUR))!;
    expect(serves).toBe('each');
    expect(cuts.map(({ line, kind, n, of, saves }) => ({ line, kind, n, of, saves }))).toEqual([
      { line: 7, kind: 'reps', n: 1, of: 6, saves: 60_000 },
      { line: 5, kind: 'rounds', n: 1, of: 3, saves: 120_000 },
    ]);
  });

  it('where none is enough alone, gives the fewest that are together', () => {
    const fitted = fitPlan(planOf(HOUR.replace('19:45', '19:38')))!;
    expect(fitted.serves).toBe('all');
    expect(fitted.cuts.map(({ line, n, saves }) => ({ line, n, saves }))).toEqual([
      { line: 7, n: 5, saves: 300_000 },
      { line: 5, n: 2, saves: 240_000 },
    ]);
    expect(fitPlan(planOf(HOUR.replace('19:45', '19:34')))!.serves).toBe('short');
  });

  /** Lane 1 takes 10:00, lane 2 8:00: of line 5 no more than two save anything, until line 6 is cut. */
  const TURNS = ['start 19:30', 'finish 19:40', 'lane 1', 'lane 2', '8/0 x 50 @ 1:00', '2 x 100 @ 1:00/4:00'];
  const turns = (finish: string) =>
    fitPlan(planOf([...TURNS, 'Swim-down', '50 @ 1:00'].join('\n').replace('19:40', finish)))!;

  it('cuts more of a line where cuts of others have made it count, and names each line once', () => {
    const { serves, cuts } = turns('19:37');
    expect(serves).toBe('all');
    expect(cuts.map(({ line, n, saves }) => ({ line, n, saves }))).toEqual([
      { line: 5, n: 4, saves: 120_000 },
      { line: 6, n: 1, saves: 180_000 },
    ]);
    expect(turns('19:31')).toMatchObject({ serves: 'short', cuts: [{ n: 5 }, { n: 1, saves: 240_000 }] });
  });

  it('where nothing suffices, a line whose cut would save no more after the others is not among them', () => {
    const lanes = ['lane 1', 'lane 2', '4/0 x 50 @ 1:00', '4/0 x 100 @ 1:00', '0/1 x 100 @ 6:00'];
    const text = ['start 19:30', 'finish 19:35', ...lanes, 'Swim-down', '50 @ 1:00'].join('\n');
    expect(fitPlan(planOf(text))).toMatchObject({ serves: 'short', cuts: [{ line: 5, n: 2, saves: 120_000 }] });
  });

  it('drops whole rounds before anything in them, and what is in them once one round is left', () => {
    const text = ['start 19:30', 'finish 19:39', '3 rounds', '  100 @ 2:00', '  4 x 50 @ 1:00', 'Swim-down', '50 easy'];
    // 18:00 of rounds: one round less is 6:00, one 50 less in each is 3:00.
    const long = fitPlan(planOf(text.join('\n').replace('19:39', '19:46')))!;
    expect(long.cuts.map(({ line, n }) => ({ line, n }))).toEqual([{ line: 3, n: 1 }]);
    const short = fitPlan(planOf(text.join('\n').replace('19:39', '19:35')))!;
    expect(short.cuts.map(({ line }) => line)).toEqual([3, 5]);
  });

  it('rounds in rounds: the outer ones first', () => {
    const text = 'start 19:30\nfinish 19:46\n3 rounds\n  2 rounds\n    4 x 50 @ 0:45\nSwim-down\n50 easy';
    expect(fitPlan(planOf(text))!.cuts.map(({ line }) => line)).toEqual([3]);
  });

  it('rounds and set on one line are cut by rounds', () => {
    const text = 'start 19:30\nfinish 19:42\n3 x 4 x 50 @ 1:00\nSwim-down\n50 easy';
    expect(fitPlan(planOf(text))!.cuts.map(({ line, kind }) => ({ line, kind }))).toEqual([
      { line: 3, kind: 'rounds' },
    ]);
  });

  it('a set that is on no longest lane saves nothing and is not offered', () => {
    const text = 'start 19:30\nfinish 19:36\nlane 1\nlane 2\n0/8 x 50 @ 1:00\n4/0 x 100 @ 1:00\nSwim-down\n50 easy';
    expect(fitPlan(planOf(text))!.cuts.map(({ line }) => line)).toEqual([5]);
  });

  it('during a run: what is cut is worked out from where the run stands, and ends as it says', () => {
    const deck = new Deck(HOUR).at(0, { do: 'start' }).at(150, { do: 'stop' }).at(330, { do: 'resume' });
    const { over, cuts } = fit(deck.settled(330), 330_000, 16 * 60_000);
    expect(over).toBe(160_000);
    for (const { line, n, endsAt } of cuts) {
      const after = apply(deck.state, { do: 'cut', line, n }, 330_000);
      expect(projectedEnd(settle(after.state, 330_000), 330_000)).toBe(endsAt);
      expect(endsAt).toBeLessThanOrEqual(16 * 60_000);
    }
  });

  it('offers nothing where the plan ends in time, to the second', () => {
    expect(fitPlan(planOf(HOUR.replace('19:45', '19:47')))).toEqual({
      over: -60_000,
      swimDownBy: 14 * 60_000,
      cuts: [],
      serves: 'each',
    });
    expect(fitPlan(planOf(HOUR.replace('19:45', '19:46')))).toMatchObject({ over: 0, cuts: [], serves: 'each' });
  });

  it('offers nothing once the run is done, however late', () => {
    const deck = new Deck(HOUR).at(0, { do: 'start' }).at(20, { do: 'finish' });
    expect(fit(deck.settled(30), 30_000, 5000)).toMatchObject({ swimDownBy: null, cuts: [], serves: 'each' });
  });

  it('needs a start and a finish', () => {
    expect(fitPlan(planOf(HOUR.replace('start 19:30\n', '')))).toBeNull();
    expect(fitPlan(planOf(HOUR.replace('finish 19:45\n', '')))).toBeNull();
  });

  it('takes a swim that comes first to begin at the start, and a talk too', () => {
    const over = (first: string) => fitPlan(planOf(`start 19:30\nfinish 19:40\n${first}\n10 x 50 @ 1:00`))!.over;
    expect(over('2 x 50 @ 0:30')).toBe(60_000);
    expect(over('talk 0:55')).toBe(55_000);
  });

  it('never cuts the last part that is named swim-down, else the last part', () => {
    const part = (...lines: string[]) => swimDownPart(new Deck(['T', ...lines].join('\n')).state);
    expect(part('Main', '50', 'Swim-down', '50', 'Games', '50')).toBe(1);
    expect(part('Swim-down', '50', 'Games', '50')).toBe(0);
    expect(part('Swim-down', '50', 'Main', '50', 'Warm-down', '50')).toBe(2);
    expect(part('Main', '50', 'Games', '50')).toBe(1);
    expect(part('Main', '50', 'Nothing yet')).toBe(0);
    expect(swimDownPart({ ...new Deck('T\nMain\n50').state, stretches: [] })).toBe(-1);
  });

  it('says when the swim-down must start until it has, and not where it has nothing to swim', () => {
    const by = (deck: Deck, seconds: number) => fit(deck.settled(seconds), seconds * 1000, 600_000).swimDownBy;
    const deck = new Deck('T\nMain\n50 @ 1:00\nSwim-down\n2 x 50 @ 1:00').at(0, { do: 'start' });
    expect(by(deck, 20)).toBe(480_000);
    expect(by(deck, 100)).toBe(480_000);
    deck.at(100, { do: 'start' });
    expect(by(deck, 105)).toBeNull();
    expect(by(deck, 150)).toBeNull();
    expect(by(new Deck('T\nMain\n50 @ 1:00\nSwim-down').at(0, { do: 'start' }), 20)).toBeNull();
    const first = new Deck('T\nSwim-down\n50 @ 1:00\nGames\n50 @ 1:00');
    expect(by(first, 0)).toBe(420_000);
    expect(by(first.at(0, { do: 'start' }), 90)).toBeNull();
  });

  it('offers what stands in rounds that cannot be cut', () => {
    const text = 'start 19:30\nfinish 19:37\n1 round\n  8 x 50 @ 1:00\nSwim-down\n50 easy';
    expect(fitPlan(planOf(text))!.cuts.map(({ line, kind, n }) => ({ line, kind, n }))).toEqual([
      { line: 4, kind: 'reps', n: 4 },
    ]);
  });

  it('offers sets that are repeated as often in order of the session, also where the first lane swims but one', () => {
    const text = 'start 19:30\nfinish 19:37\nlane 1\nlane 2\n0/4 x 50 @ 1:00\n4 x 100 @ 1:00\nSwim-down\n2 x 25 @ 0:05';
    expect(fitPlan(planOf(text))!.cuts.map(({ line }) => line)).toEqual([5, 6]);
  });

  it('counts a set on one line with its rounds by its rounds', () => {
    const text = 'start 19:30\nfinish 19:40\n3 x 4 x 50 @ 1:00\nSwim-down\n50 easy';
    expect(fitPlan(planOf(text))!.cuts).toMatchObject([{ line: 3, n: 2, of: 3 }]);
  });

  it('the smallest cut of every line that brings the end forward, rounds before what is in them', () => {
    const { state } = new Deck(`lane 1\nlane 2\n${HOUR.replace('6 x 100', '4/6 x 100')}`);
    expect(singleCuts(state, -10_000).map(({ line, n, saves }) => ({ line, n, saves }))).toEqual([
      { line: 9, n: 1, saves: 60_000 },
      { line: 7, n: 1, saves: 120_000 },
    ]);
  });

  it('the smallest cut that saves may be more than one, where the next stretch waits for a round reading', () => {
    // 4 x 25 end at 1:40, three at 1:15: both make the next part start at 2:00, two at 1:00.
    const { state } = new Deck('start on 60\nbetween 0:00\nOne\n4 x 25 @ 0:25\nTwo\n25 @ 0:30');
    expect(singleCuts(state, -10_000)).toMatchObject([{ line: 4, n: 2, saves: 60_000 }]);
  });

  it('what has been cut before is cut no more', () => {
    const deck = new Deck(HOUR).at(0, { do: 'cut', line: 7, n: 4 }).at(1, { do: 'cut', line: 5, n: 2 });
    // One 50 of two is left in line 6 to cut, of line 7 one of two.
    expect(singleCuts(deck.state, 2000).map(({ line, n }) => ({ line, n }))).toEqual([
      { line: 6, n: 1 },
      { line: 7, n: 1 },
    ]);
  });

  it('tries the sixty lines that are repeated most and can be cut', () => {
    const lines = (count: number, line: string) => new Array<string>(count).fill(line);
    const sets = [...lines(61, '2 x 25 @ 0:10'), '3 x 25 @ 0:10', ...lines(9, '4/1 x 25 @ 0:10'), '25 @ 0:10'];
    const text = ['lane 1', 'lane 2', ...sets, 'Swim-down', '25'];
    const tried = singleCuts(new Deck(text.join('\n')).state, -10_000);
    expect(tried.map(({ line }) => line)).toEqual([64, ...Array.from({ length: 59 }, (_, index) => index + 3)]);
    const parts = ['One', ...lines(60, '9 x 25 @ 0:10'), 'Two', '2 x 25 @ 0:10', 'Swim-down', '25'];
    const onward = new Deck(['T', ...parts].join('\n')).at(0, { do: 'move-on' });
    expect(singleCuts(onward.state, 1000).map(({ line }) => line)).toEqual([64]);
  });

  describe('[fit] what a lane has begun', () => {
    /** Rounds of 4:00 in line 3, from 10 s; then 6:00 of hundreds in line 6. At 5:10 round 2 is half swum. */
    const ROUNDS = ['start 19:30', 'finish 19:50', '3 rounds', '  100 @ 2:00', '  100 kick @ 2:00', '6 x 100 @ 1:00'];
    const deckOf = () => new Deck([...ROUNDS, 'Swim-down', '4 x 50 @ 0:30'].join('\n')).at(0, { do: 'start' });
    const short = (cuts: readonly CutOption[]) =>
      cuts.map(({ line, n, takesBegun }) => `${n} of line ${line}${takesBegun ? ', begun' : ''}`);
    const cutsFor = (minutes: number) => {
      const now = deckOf().settled(310);
      const { cuts, serves } = fit(now, 310_000, projectedEnd(now, 310_000) - minutes * 60_000);
      return [serves, ...short(cuts)];
    };

    it('is not cut while whole rounds and reps suffice, alone or together', () => {
      expect(cutsFor(4)).toEqual(['each', '4 of line 6', '1 of line 3']);
      // Two rounds alone would do it too, but the second of three is half swum.
      expect(cutsFor(6)).toEqual(['all', '5 of line 6', '1 of line 3']);
    });

    it('is cut where nothing else suffices, and that is said', () => {
      expect(cutsFor(10)).toEqual(['all', '2 of line 3, begun', '4 of line 6']);
    });

    it('is not among the cuts offered in good time while there are others', () => {
      // Nothing but the rest of the last round is left of line 3.
      expect(short(singleCuts(deckOf().settled(550), 550_000))).toEqual(['1 of line 6']);
      const alone = new Deck([...ROUNDS.slice(0, -1), 'Swim-down', '50 @ 0:30'].join('\n')).at(0, { do: 'start' });
      expect(short(singleCuts(alone.settled(550), 550_000))).toEqual(['1 of line 3, begun']);
    });

    it('a rep that one lane has left is begun for all lanes', () => {
      const lanes = ['lane 1', 'lane 2', '8 x 50 @ 0:40/1:00', 'Swim-down', '2 x 50 @ 1:00'].join('\n');
      const going = new Deck(lanes).at(0, { do: 'start' }).settled(220);
      // Lane 1 has left 6 of 8 (10 s and every 40 s), lane 2 has left 4 (every 60 s).
      const one = fit(going, 220_000, projectedEnd(going, 220_000) - 120_000);
      expect(one.cuts).toMatchObject([{ line: 3, n: 2, takesBegun: false }]);
      const three = fit(going, 220_000, projectedEnd(going, 220_000) - 180_000);
      expect(three.cuts).toMatchObject([{ line: 3, n: 3, takesBegun: true }]);
    });
  });

  it('where a cut takes all that a stopped stretch has left, the end is that of the next one begun by hand', () => {
    const parts = 'One\n2 x 25 free @ 0:15\nTwo\n50-100-50 @ 0:40\n2 x 50 @ 1:00';
    const deck = new Deck(`start 19:30\nfinish 20:30\nbetween 0:00\nstart on 1\n${parts}`);
    deck.at(0, { do: 'start' }).at(9.75, { do: 'stop' });
    const [cut] = fit(deck.settled(25), 25_000, 289_999).cuts;
    deck.at(25, { do: 'cut', line: cut!.line, n: cut!.n });
    expect([cut!.line, cut!.endsAt]).toEqual([6, projectedEnd(deck.settled(25), 25_000)]);
  });

  it('a rep that is about to leave, within a quarter of a second, is not offered', () => {
    const deck = new Deck('start 19:30\nfinish 20:30\nstart on 1\nOne\n2 x 25 free @ 0:15\nTwo\n200 @ 4:00');
    deck.at(0, { do: 'start' });
    expect(fit(deck.settled(24.7), 24_700, 60_000).cuts.map(({ line }) => line)).toEqual([5]);
    expect(fit(deck.settled(24.8), 24_800, 60_000).cuts).toEqual([]);
    expect(singleCuts(deck.settled(24.8), 24_800)).toEqual([]);
  });

  it('in any evening, what is offered is accepted and brings the end to where it says', () => {
    fc.assert(
      fc.property(evenings, fc.integer({ min: 0, max: 600_000 }), ({ text, phase, steps }, sooner) => {
        const deck = new Deck(text, phase / 1000);
        let t = 0;
        for (const { after, command } of steps) deck.state = apply(deck.state, command, (t += after)).state;
        const now = settle(deck.state, t + 251);
        if (now.phase === 'done') return;
        const finish = projectedEnd(now, t + 251) - sooner;
        const { cuts, serves } = fit(now, t + 251, finish);
        let state = now;
        for (const { line, n, endsAt } of cuts) {
          const answer = apply(serves === 'each' ? now : state, { do: 'cut', line, n }, t + 251);
          expect(answer.ok).toBe(true);
          state = answer.state;
          const end = projectedEnd(settle(state, t + 251), t + 251);
          if (state.phase !== 'done') expect(end).toBe(endsAt);
        }
        if (cuts.length > 0 && serves !== 'short') expect(cuts[cuts.length - 1]!.endsAt).toBeLessThanOrEqual(finish);
      }),
      { numRuns: runs(150) },
    );
  });
});

describe('smaller cuts of several lines', () => {
  const small = (text: string): readonly string[] => smallCuts(planOf(text)).map(({ line, n }) => `${n} of ${line}`);

  it('are taken from the end of the session on, of each line half at most, and are enough together', () => {
    // 4:00 over: three of the hundreds and one of the rounds, where alone it would be four hundreds or two rounds.
    const text = HOUR.replace('19:45', '19:42');
    expect(small(text)).toEqual(['3 of 7', '1 of 5']);
    const cuts = smallCuts(planOf(text));
    expect(cuts.map(({ saves }) => saves)).toEqual([180_000, 120_000]);
    expect(cuts[1]!.endsAt).toBeLessThanOrEqual(12 * 60_000);
  });

  it('are none where it ends in time, where half of one line is enough, or where half of all is not', () => {
    expect(small(HOUR.replace('19:45', '20:30'))).toEqual([]);
    expect(small(HOUR)).toEqual([]);
    // 1:30 over: half of the hundreds, the last line, saves 0:30, and one of the rounds 2:00.
    expect(small(HOUR.replace('6 x 100 @ 1:00', '3 x 100 @ 0:30').replace('19:45', '19:40'))).toEqual([]);
    expect(small(HOUR.replace('19:45', '19:36'))).toEqual([]);
    expect(small('4 x 50 @ 1:00')).toEqual([]);
  });
});

describe('cuts of lines inside rounds', () => {
  const inside = (text: string): readonly string[] =>
    cutsInRounds(planOf(text)).map(({ line, n }) => `${n} of ${line}`);
  const ROUNDS = HOUR.replace('  2 x 50 @ 1:00', '  4 x 50 @ 0:30');

  it('are those that are enough alone and end later than the cut of their rounds', () => {
    // 1:00 over: a 50 of each round saves 1:30, a whole round 2:00.
    expect(inside(ROUNDS)).toEqual(['1 of 6']);
    const [cut] = cutsInRounds(planOf(ROUNDS));
    expect(cut!.saves).toBe(90_000);
  });

  it('are none where the round takes no more, where none is enough, and where it ends in time', () => {
    // Two 50s of each round save 3:00, and one round 2:00.
    expect(inside(ROUNDS.replace('19:45', '19:44'))).toEqual([]);
    expect(inside(ROUNDS.replace('19:45', '19:34'))).toEqual([]);
    expect(inside(ROUNDS.replace('19:45', '20:30'))).toEqual([]);
    expect(inside('3 rounds\n  4 x 50 @ 1:00')).toEqual([]);
  });
});
