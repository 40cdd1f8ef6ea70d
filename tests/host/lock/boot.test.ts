/* Which start of the machine it is, by its name or by its time. */

import { describe, expect, test } from 'vitest';
import { bootByTime, isSameBoot } from '../../../app/host/lock/boot.ts';

describe('[lock] a start of the machine', () => {
  test('with a name is the same by its name alone', () => {
    expect(isSameBoot('a1b2', 'a1b2')).toBe(true);
    expect(isSameBoot('a1b2', 'a1b3')).toBe(false);
    expect(isSameBoot('a1b2', bootByTime(60_000, 0))).toBe(false);
    expect(isSameBoot(bootByTime(60_000, 0), 'a1b2')).toBe(false);
    expect(isSameBoot(bootByTime(60_000, 0), 'start 60000')).toBe(false);
  });

  test('without a name is the same within half a minute of its time', () => {
    const boot = bootByTime(1_700_000_000_000, 5000.4);
    expect(boot).toBe('since 1699999995000');
    for (const [apart, same] of [
      [0, true],
      [30_000, true],
      [30_001, false],
    ] as const) {
      expect(isSameBoot(boot, bootByTime(1_700_000_000_000 + apart, 5000))).toBe(same);
      expect(isSameBoot(boot, bootByTime(1_700_000_000_000 - apart, 5000))).toBe(same);
    }
  });
});
