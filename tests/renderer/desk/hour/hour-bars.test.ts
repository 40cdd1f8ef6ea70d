import { describe, expect, test } from 'vitest';
import { hourPicture, placeIn } from '../../../../renderer/desk/hour/hour-bars.ts';
import { planOf } from '../../../support/run/deck.ts';

const HOUR = `start 19:30
finish 19:40
between 1:00
lane 1
lane 2 3 swimmers, gap 10

Main set
4/3 x 50 free @ 1:00
talk 1:00 turns

Swim-down
2 x 50 easy @ 1:30`;

describe('[hour] the picture of a session', () => {
  test('has a bar a lane for what it swims, from its first leave to the end of its tail', () => {
    const { bars, lanes } = hourPicture(planOf(HOUR));
    expect(lanes).toEqual([1, 2]);
    expect(bars.map(({ kind, lane, from, to, line }) => [kind, lane, from, to, line])).toEqual([
      ['swim', 0, 0, 40, 8],
      ['swim', 1, 0, expect.closeTo(33.33, 1), 8],
      ['pause', null, 40, 50, 9],
      ['swim-down', 0, 60, 90, 12],
      ['swim-down', 1, 60, expect.closeTo(93.33, 1), 12],
    ]);
  });

  test('has its finish at the end where nothing runs over, and a time of day every so often', () => {
    const { finish, ticks } = hourPicture(planOf(HOUR));
    expect(finish).toBe(100);
    expect(ticks.map(({ at, words }) => `${at} ${words}`)).toEqual(['0 19:30', '50 19:35', '100 19:40']);
  });

  test('a bar that crosses the finish is divided there, and only what is behind it runs over', () => {
    const plan = planOf(HOUR.replace('19:40', '19:38'));
    const { bars, finish } = hourPicture(plan);
    expect(finish).toBeCloseTo((100 * 480) / 560);
    const last = bars.filter(({ lane, partIndex }) => lane === 1 && partIndex === 1);
    expect(last.map(({ over }) => over)).toEqual([false, true]);
    expect(last.map(({ from, to }) => [from, to])).toEqual([
      [expect.closeTo((100 * 360) / 560), finish],
      [finish, 100],
    ]);
    expect(bars.filter(({ partIndex }) => partIndex === 0).every(({ over }) => !over)).toBe(true);
    expect(placeIn(plan, 280_000)).toBeCloseTo(50);
  });

  test('a bar that begins behind the finish runs over as a whole', () => {
    const { bars } = hourPicture(planOf(HOUR.replace('19:40', '19:35')));
    expect(bars.filter(({ partIndex }) => partIndex === 1).map(({ over }) => over)).toEqual([true, true]);
  });

  test('without a start the time is counted, without a finish none is marked, and a lane that sits out has no bar', () => {
    const { bars, finish, ticks } = hourPicture(planOf('lane 1\nlane 2\n4/0 x 50 @ 1:00'));
    expect([finish, bars.map(({ lane }) => lane), ticks[0]!.words]).toEqual([null, [0], '0:00']);
  });

  test('there are never more than seven times along it, however long the session', () => {
    for (const minutes of [1, 7, 59, 61, 200, 1400]) {
      const { ticks } = hourPicture(planOf(`${'45:00 swim\n'.repeat(Math.ceil(minutes / 45))}`));
      expect(ticks.length).toBeLessThanOrEqual(7);
    }
  });
});
