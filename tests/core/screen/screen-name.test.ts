/* Names of wall screens. */

import { describe, expect, test } from 'vitest';
import { freeName, LONGEST_NAME, OWN_WALL, screenName } from '../../../app/core/screen/screen-name.ts';

describe('[screens] a name', () => {
  test.each([
    ['Shallow end', 'Shallow end'],
    [OWN_WALL, 'Wall'],
    ['  Shallow \t end ', 'Shallow end'],
    ['Shallow\u2028end\u2029', 'Shallow end'],
    ['Lanes 1–4', 'Lanes 1–4'],
    ['a'.repeat(LONGEST_NAME), 'a'.repeat(LONGEST_NAME)],
    // One letter, however it is put together.
    ['Bru\u0308cke', 'Br\u00fccke'],
  ])('%j is kept as %j', (text, name) => {
    expect(screenName(text)).toBe(name);
    expect(screenName(name)).toBe(name);
  });

  test.each([
    ['nothing', ''],
    ['spaces alone', '   '],
    ['too long', 'a'.repeat(LONGEST_NAME + 1)],
    ['a character that cannot be seen', 'Hall\u200b'],
    ['one that turns letters around', 'Hall \u202ellaH'],
    ['one of the machine', 'Hall\u0000'],
    ['one that stands for what could not be read', 'Hall\ufffd'],
  ])('%s is no name', (_, text) => {
    expect(screenName(text)).toBeNull();
  });

  test('a new screen gets the first number that is free', () => {
    const taken = ['Screen 1', 'Screen 2', 'Screen 4'];
    expect(freeName((name) => taken.includes(name))).toBe('Screen 3');
    expect(freeName(() => false)).toBe('Screen 1');
  });
});
