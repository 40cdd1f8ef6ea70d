/* The flash and the beep of the settings: together, once a second, however far the sound is shifted. */

import { describe, expect, test } from 'vitest';
import { createSyncPulse, isLit } from '../../../renderer/sound/sync-pulse.ts';

/** When beeps are sent, by the page's clock, over ten seconds of passes a quarter of a second apart. */
function beeps(shift: number): readonly number[] {
  const sent = new Map<number, number>();
  let n = 0;
  const beat = createSyncPulse({
    schedule(_, heardAt) {
      const sound = n++;
      sent.set(sound, heardAt);
      return {
        retime: (to) => void sent.set(sound, to),
        cancel: () => void sent.delete(sound),
        release: () => undefined,
      };
    },
  });
  for (let now = 10_100; now < 20_000; now += 250) beat.pass(now, shift);
  beat.silence();
  return [...sent.values()].sort((a, b) => a - b);
}

describe('[sound] flash and beep', () => {
  test('a beep at each whole second, once, sent earlier or later by the shift', () => {
    for (const shift of [0, -300, 300]) {
      const times = beeps(shift);
      times.forEach((time, index) => expect(time - shift).toBe(times[0]! - shift + index * 1000));
      expect(times[0]! - shift).toBe(shift === 300 ? 10_000 : 11_000);
      expect(times.length).toBeGreaterThanOrEqual(9);
    }
  });

  test('sent earlier, beeps are scheduled by so much sooner, to the end of what is looked ahead', () => {
    const sent: number[] = [];
    const nothing = { retime: () => undefined, cancel: () => undefined, release: () => undefined };
    const pulse = createSyncPulse({ schedule: (_, heardAt) => (sent.push(heardAt), nothing) });
    pulse.pass(10_800, -300, 2000);
    pulse.pass(20_700, -300, 2000);
    // Of the second pass the beep for 23 000 is not within its two seconds and three tenths.
    expect(sent).toEqual([11_700, 12_700, 21_700]);
  });

  test('the flash begins with the second and is over before its quarter: once a second, no more', () => {
    const changes = Array.from({ length: 3000 }, (_, now) => now + 1).filter((now) => isLit(now) !== isLit(now - 1));
    expect(changes).toEqual([200, 1000, 1200, 2000, 2200, 3000]);
    expect([isLit(3000), isLit(3500)]).toEqual([true, false]);
  });
});
