/* What a wall screen's settings are, and when two are the same. */

import { describe, expect, test } from 'vitest';
import {
  changedSettings,
  FIRST_SETTINGS,
  isSameSettings,
  LANE_RANGE,
  SCREEN_CHOICES,
  SCREEN_RANGES,
  type ScreenSettings,
} from '../../../app/core/screen/screen-settings.ts';

describe('[screens] settings', () => {
  test('at first the design case is assumed: 55 inches, read at 15 m, 5 % kept clear', () => {
    expect(FIRST_SETTINGS).toMatchObject({ diagonal: 55, reader: 15, inset: 5 });
  });

  test("at first all lanes are shown, and neither the end nor swimmers' names", () => {
    expect(FIRST_SETTINGS).toMatchObject({ lanes: null, words: true, after: true, end: false, names: false });
    expect([FIRST_SETTINGS.leavesOnly, FIRST_SETTINGS.twoColumns]).toEqual([false, false]);
  });

  test('what can be chosen of each', () => {
    expect(SCREEN_CHOICES).toEqual({
      clock: ['stretch', 'run', 'pool'],
      face: ['digits', 'sweep'],
      top: ['60', '00'],
      pushOff: ['left', 'right'],
      laneOne: ['top', 'bottom'],
      light: ['dark hall', 'bright hall', 'contrast'],
    });
    expect(SCREEN_RANGES).toEqual({
      diagonal: { least: 10, most: 300 },
      reader: { least: 2, most: 60 },
      inset: { least: 0, most: 10 },
    });
    expect(LANE_RANGE).toEqual({ least: 0, most: 20 });
  });

  test.each(Object.entries(SCREEN_CHOICES))('the usual %s is the first of its choices', (name, values) => {
    expect(FIRST_SETTINGS[name as keyof typeof SCREEN_CHOICES]).toBe(values[0]);
  });

  test.each(Object.entries(SCREEN_RANGES))('the first %s lies within its range', (name, { least, most }) => {
    const first = FIRST_SETTINGS[name as keyof typeof SCREEN_RANGES];
    expect(first).toBeGreaterThanOrEqual(least);
    expect(first).toBeLessThanOrEqual(most);
  });

  test('a change leaves all else as it was, and what it was made from too', () => {
    const changed = changedSettings(FIRST_SETTINGS, { pushOff: 'right', lanes: [2, 4] });
    expect(changed).toEqual({ ...FIRST_SETTINGS, pushOff: 'right', lanes: [2, 4] });
    expect(FIRST_SETTINGS.pushOff).toBe('left');
  });

  test('lanes are kept in lane order, in whichever order they were chosen', () => {
    const change = { lanes: [10, 2, 4] };
    expect(changedSettings(FIRST_SETTINGS, change).lanes).toEqual([2, 4, 10]);
    expect(change.lanes).toEqual([10, 2, 4]);
  });

  test('a change to what is there already is no change', () => {
    const settings: ScreenSettings = { ...FIRST_SETTINGS, lanes: [1, 3] };
    expect(changedSettings(settings, { lanes: [3, 1], inset: 5 })).toBe(settings);
  });

  test('a change of one setting is a change, the lanes being as they were', () => {
    const some: ScreenSettings = { ...FIRST_SETTINGS, lanes: [1, 3] };
    expect(changedSettings(some, { inset: 7 })).toEqual({ ...some, inset: 7 });
    expect(changedSettings(some, { lanes: null })).toEqual({ ...some, lanes: null });
    expect(changedSettings(FIRST_SETTINGS, { reader: 20 })).toEqual({ ...FIRST_SETTINGS, reader: 20 });
  });

  test.each<[string, ScreenSettings['lanes'], ScreenSettings['lanes'], boolean]>([
    ['one lane for another', [2, 3], [2, 4], false],
    ['the same lanes', [2, 3], [2, 3], true],
    ['another order', [2, 3], [3, 2], false],
    ['one lane more', [2, 3], [2, 3, 4], false],
    ['all lanes and some', null, [1], false],
    ['some lanes and all', [1], null, false],
    ['all lanes', null, null, true],
  ])('%s: told apart where they are not the same', (_, a, b, same) => {
    expect(isSameSettings({ ...FIRST_SETTINGS, lanes: a }, { ...FIRST_SETTINGS, lanes: b })).toBe(same);
  });
});
