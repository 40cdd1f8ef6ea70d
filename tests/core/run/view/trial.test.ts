/*
 * What would come of a command, and what brings the hour back: tried on a run that is thrown away.
 */

import { describe, expect, test } from 'vitest';
import { fitOf, singleCutsOf } from '../../../../app/core/run/view/late.ts';
import { cutTakesBegun, startFollows, tried } from '../../../../app/core/run/view/trial.ts';
import { Deck } from '../../../support/run/deck.ts';

const deck = () => new Deck('One\n4 x 50 @ 1:00\nTwo\n3 x 50 @ 1:00\nDown\n50 @ 1:00').at(0, { do: 'start' });

describe('[trial] a command', () => {
  test('is carried out at the view’s time, and the run stays as it was', () => {
    const now = deck().view(20);
    const trial = tried(now, { do: 'cut', line: 2, n: 2 });
    if (!trial.ok) throw new Error(trial.why);
    expect([trial.after.t, trial.after.cuts.get(2), now.cuts.size]).toEqual([20_000, 2, 0]);
    expect(trial.after.projectedEnd).toBe(now.projectedEnd - 120_000);
  });

  test('that the run refuses says why, and so does one with a field out of range', () => {
    const why = (n: number) => {
      const trial = tried(deck().view(20), { do: 'cut', line: 2, n });
      return trial.ok ? 'accepted' : trial.why;
    };
    expect(why(4)).toBe('Line 2 must keep at least one rep in every lane: cut fewer, or use Move on.');
    expect(why(0)).toBe('The command cut needs n, a whole number from 1.');
  });

  test('a Start follows where one is for this moment, be it too soon after a Start or Stop', () => {
    const parts = () => new Deck('One\n50 @ 1:00\nTwo\n50 @ 1:00');
    expect(startFollows(parts().view(1))).toBe(true);
    const going = parts().at(0, { do: 'start' });
    expect(startFollows(going.view(20))).toBe(true);
    expect(startFollows(new Deck('2 x 50 @ 1:00').at(0, { do: 'start' }).view(20))).toBe(false);
    // What follows is waited for again: a Start is refused for three seconds more, and is for this moment.
    const stopped = new Deck('lane 1\nlane 2\nOne\n1/2 x 50 @ 1:00\nTwo\n50 @ 1:00').at(0, { do: 'start' });
    stopped.at(20, { do: 'stop' });
    expect(stopped.refusal(21, { do: 'start' })).toMatch(/\w/);
    expect(startFollows(stopped.view(21))).toBe(true);
    const again = parts().at(0, { do: 'start' }).at(1, { do: 'restart' });
    expect(again.refusal(2, { do: 'start' })).toMatch(/\w/);
    expect(startFollows(again.view(2))).toBe(true);
  });

  test('a cut takes what is left of what a lane has begun, or does not', () => {
    const rounds = new Deck('3 rounds\n  4 x 50 @ 1:00').at(0, { do: 'start' });
    const takes = (n: number) => {
      const now = rounds.view(260);
      const trial = tried(now, { do: 'cut', line: 1, n });
      return trial.ok && cutTakesBegun(now, trial.after, 1);
    };
    expect([takes(1), takes(2)]).toEqual([false, true]);
  });
});

describe('[fit] as a screen asks for it', () => {
  test('by how much it runs over, and what brings it back', () => {
    const now = deck().view(20);
    const { over, cuts } = fitOf(now, now.projectedEnd - 60_000);
    expect([over, ...cuts.map(({ line, n }) => `${n} of ${line}`)]).toEqual([60_000, '1 of 2', '1 of 4']);
    expect(singleCutsOf(now).map(({ line, n }) => `${n} of ${line}`)).toEqual(['1 of 2', '1 of 4']);
  });
});
