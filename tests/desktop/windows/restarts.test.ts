/*
 * When a page that has died comes back.
 */

import { describe, expect, test } from 'vitest';
import { afterDeath } from '../../../app/desktop/windows/restarts.ts';

describe('[desktop] a page that dies', () => {
  test.each<[string, string, number[], number, string]>([
    ['comes back', 'crashed', [], 0, 'again'],
    ['comes back a third time', 'oom', [0, 10_000], 20_000, 'again'],
    ['is plain at the fourth time within a minute', 'crashed', [0, 10_000, 20_000], 59_999, 'plain page'],
    ['comes back when the minute is over', 'crashed', [0, 10_000, 20_000], 60_000, 'again'],
    ['in good order stays away', 'clean-exit', [], 0, 'nothing'],
  ])('%s', (_, reason, deaths, now, expected) => {
    expect(afterDeath(reason, deaths, now, false)).toBe(expected);
  });

  test('stays away where it was the plain one', () => {
    expect(afterDeath('crashed', [0, 1000, 2000], 3000, true)).toBe('nothing');
  });
});
