/*
 * What is read of the audio device's clock, and telling a device that plays from one that only says so.
 */

import { describe, expect, test } from 'vitest';
import { createMotion, readStamp } from '../../../../renderer/sound/output/audio-clock.ts';

describe('[sound] the stamp of the output', () => {
  const stamped = (contextTime: number, performanceTime: number) => ({
    getOutputTimestamp: () => ({ contextTime, performanceTime }),
  });

  test('is the output’s own: the device’s delay is in it', () => {
    const audio = { currentTime: 10.04, outputLatency: 0.032, ...stamped(10, 5_000) };
    expect(readStamp(audio, 5_003)).toEqual({ contextTime: 10, pageTime: 5_000 });
  });

  test('none while the device opens; where none ever comes, the current time less the delay that is known', () => {
    expect(readStamp({ currentTime: 0.5, ...stamped(0, 0) }, 5_000)).toBeNull();
    expect(readStamp({ currentTime: 5, outputLatency: 0.03, ...stamped(0, 0) }, 5_000)).toEqual({
      contextTime: 4.97,
      pageTime: 5_000,
    });
  });

  test('one that is nowhere near now is none, nor one of which only one clock has begun', () => {
    expect(readStamp({ currentTime: 2, ...stamped(2, 90_000) }, 5_000)).toBeNull();
    expect(readStamp({ currentTime: 2, ...stamped(2, 3_000) }, 5_000)).toBeNull();
    expect(readStamp({ currentTime: 2, ...stamped(2, 3_001) }, 5_000)).not.toBeNull();
    expect(readStamp({ currentTime: 2, ...stamped(0, 5_000) }, 5_000)).toBeNull();
    expect(readStamp({ currentTime: 2, ...stamped(2, 0) }, 1_000)).toBeNull();
  });

  test('from its third second on a device that has given none goes by the current time', () => {
    expect(readStamp({ currentTime: 2.99, ...stamped(0, 0) }, 5_000)).toBeNull();
    expect(readStamp({ currentTime: 3, ...stamped(0, 0) }, 5_000)).toEqual({ contextTime: 3, pageTime: 5_000 });
  });

  test('browsers without stamps: the current time less the delay that is known', () => {
    const at = (audio: { outputLatency?: number; baseLatency?: number }) =>
      readStamp({ currentTime: 2, ...audio }, 5_000)!.contextTime;
    expect(at({ outputLatency: 0.03, baseLatency: 0.01 })).toBeCloseTo(1.97, 9);
    expect(at({ baseLatency: 0.01 })).toBeCloseTo(1.99, 9);
    expect(at({})).toBe(2);
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

  test('one that never moves is gone too, two seconds after it was first looked at', () => {
    const motion = createMotion();
    expect(motion.look(0, false, 90_000)).toBe('starting');
    expect(motion.look(0, false, 92_000)).toBe('starting');
    expect(motion.look(0, false, 92_001)).toBe('still');
  });

  test('one look says nothing of moving, the second does, from the very beginning of its time', () => {
    expect(createMotion().look(5, true, 0)).toBe('starting');
    const motion = createMotion();
    motion.look(0, true, 0);
    expect(motion.look(0.25, true, 250)).toBe('moving');
  });
});
