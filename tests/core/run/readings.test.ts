/*
 * What the three clocks show at a time, and what left while nobody was there to call it.
 */

import { describe, expect, test } from 'vitest';
import { clockReading, readingAt } from '../../../app/core/run/readings.ts';
import { leavesOf, wasCalled } from '../../../app/core/run/record.ts';
import { Deck } from '../../support/run/deck.ts';

/** The pool's clock shows 0:07 as the run is opened; the first stretch begins at 0:13, its clock at 0:20. */
const begun = () => new Deck('One\n2 x 50 @ 1:00\nTwo\n50 @ 1:00', 7).at(3, { do: 'start' });

describe('[clock] a time of the run as a clock shows it', () => {
  const shown = (deck: Deck, seconds: number, at = seconds) => {
    const { clock } = deck.view(seconds);
    return (['run', 'pool', 'stretch'] as const).map((choice) => [
      readingAt(choice, clock, at * 1000),
      clockReading(choice, clock, at * 1000),
    ]);
  };

  test('of the run and of the pool', () => {
    expect(shown(begun(), 20, 30).slice(0, 2)).toEqual([
      [30_000, 30_000],
      [37_000, 37_000],
    ]);
  });

  test('of the stretch: from its T0, also where that is still ahead', () => {
    expect(shown(begun(), 20)[2]).toEqual([7000, 7000]);
    expect(shown(begun(), 5, 73)[2]).toEqual([60_000, null]);
  });

  test('of the stretch: until the next T0 the last goes on', () => {
    const deck = begun();
    expect(shown(deck, 140)[2]).toEqual([127_000, 127_000]);
    deck.at(140, { do: 'start' });
    expect(shown(deck, 141, 153)[2]).toEqual([0, 140_000]);
  });

  test('of the stretch: none before the first', () => {
    expect(shown(new Deck('50 @ 1:00'), 1)[2]).toEqual([null, null]);
  });
});

describe('[away] what left while nobody was there', () => {
  test('was not called after the start of that time, up to its end', () => {
    const leave = leavesOf(begun().settled(80))[0]!;
    const called = (from: number, to: number) => wasCalled({ ...leave, at: 50 }, [{ from, to }]);
    expect([called(49, 60), called(49, 50), called(50, 60), called(40, 49)]).toEqual([false, false, true, true]);
    const gaps = [
      { from: 0, to: 10 },
      { from: 40, to: 60 },
    ];
    expect(wasCalled({ ...leave, at: 50 }, gaps)).toBe(false);
    expect(wasCalled(leave, [])).toBe(true);
  });
});
