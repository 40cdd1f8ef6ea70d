/*
 * The mapping to the audio device's clock, and telling a device that plays from one that only says so.
 */

import { describe, expect, test } from 'vitest';
import { contextTimeFor, createMotion } from '../../../renderer/sound/audio-clock.ts';

describe('[sound] mapping', () => {
  test('by the output’s own stamp: the device’s delay is in it', () => {
    const audio = {
      currentTime: 10.04,
      outputLatency: 0.032,
      getOutputTimestamp: () => ({ contextTime: 10, performanceTime: 5_000 }),
    };
    expect(contextTimeFor(audio, 6_500, 5_003)).toBeCloseTo(11.5, 9);
  });

  test('a stamp of zero is none: then by the current time less the delay that is known', () => {
    const silent = { getOutputTimestamp: () => ({ contextTime: 0, performanceTime: 0 }) };
    expect(contextTimeFor({ currentTime: 2, outputLatency: 0.03, ...silent }, 6_000, 5_000)).toBeCloseTo(2.97, 9);
    expect(contextTimeFor({ currentTime: 2, baseLatency: 0.01 }, 6_000, 5_000)).toBeCloseTo(2.99, 9);
    expect(contextTimeFor({ currentTime: 2 }, 6_000, 5_000)).toBeCloseTo(3, 9);
  });
});

describe('[sound] whether the context really moves', () => {
  test('it starts until its time and its stamp have moved, then moves', () => {
    const motion = createMotion();
    expect(motion.look(0, false, 0)).toBe('starting');
    expect(motion.look(0, false, 250)).toBe('starting');
    expect(motion.look(0.2, false, 500)).toBe('starting');
    expect(motion.look(0.45, true, 750)).toBe('moving');
  });

  test('a time that stands for more than 2 s is a device that is gone', () => {
    const motion = createMotion();
    motion.look(1, true, 0);
    expect(motion.look(1.25, true, 250)).toBe('moving');
    expect(motion.look(1.25, true, 2_250)).toBe('moving');
    expect(motion.look(1.25, true, 2_251)).toBe('still');
    expect(motion.look(1.5, true, 2_500)).toBe('moving');
  });

  test('one that never moves is gone too', () => {
    const motion = createMotion();
    expect(motion.look(0, false, 0)).toBe('starting');
    expect(motion.look(0, false, 2_001)).toBe('still');
  });
});
