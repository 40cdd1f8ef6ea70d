/* The tone that keeps loudspeakers awake: there where it is wanted, on the context in use, too soft to hear. */

import { expect, test } from 'vitest';
import { createKeepAwake } from '../../../../renderer/sound/output/keep-awake.ts';

/** A context that writes down what becomes of its oscillators. */
function fakeContext() {
  const tones: { hertz: number; level: number; stopsAt: number | null }[] = [];
  const context = {
    currentTime: 5,
    destination: {},
    createOscillator() {
      const tone = { hertz: 0, level: 0, stopsAt: null as number | null };
      tones.push(tone);
      return {
        frequency: {
          set value(hertz: number) {
            tone.hertz = hertz;
          },
        },
        connect: () => undefined,
        start: () => undefined,
        stop: (at: number) => void (tone.stopsAt = at),
      };
    },
    createGain: () => ({
      gain: {
        value: 1,
        setTargetAtTime: (level: number) => void (tones[tones.length - 1]!.level = level),
      },
      connect: () => undefined,
    }),
  };
  return { tones, context: context as unknown as AudioContext };
}

test('none until it is wanted, one however often that is said, stopped softly', () => {
  const { tones, context } = fakeContext();
  const awake = createKeepAwake();
  awake.on(context);
  expect(tones).toEqual([]);
  awake.want(true);
  awake.want(true);
  expect(tones).toHaveLength(1);
  const [tone] = tones;
  expect(tone!.hertz).toBe(30);
  // 50 dB below full scale.
  expect(20 * Math.log10(tone!.level)).toBeCloseTo(-50, 0);
  awake.want(false);
  expect(tone!.stopsAt).toBeGreaterThan(5);
  expect(tone!.level).toBe(0);
});

test('a new context gets its own', () => {
  const [first, second] = [fakeContext(), fakeContext()];
  const awake = createKeepAwake();
  awake.on(first.context);
  awake.want(true);
  awake.off();
  awake.on(second.context);
  expect([first.tones.length, second.tones.length]).toEqual([1, 1]);
  expect(first.tones[0]!.stopsAt).not.toBeNull();
});
