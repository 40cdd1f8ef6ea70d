/* The onset finder against recordings of which every beginning is known. */

import { describe, expect, test } from 'vitest';
import { onsetsOf } from './onsets.ts';

const RATE = 48_000;

/** In s; half a cosine up and down, as the program's own sounds have it. */
const RAMP = 0.015;

interface Written {
  readonly at: number;
  readonly hertz: number;
  readonly level: number;
  readonly length: number;
}

/** Tones at times between samples, on noise of a fixed seed; `noise` is its largest value. */
function recording(seconds: number, tones: readonly Written[], noise: number): Float32Array {
  let seed = 1;
  const random = (): number => {
    seed = (seed * 48_271) % 2_147_483_647;
    return (seed / 2_147_483_647) * 2 - 1;
  };
  const samples = Float32Array.from({ length: seconds * RATE }, () => noise * random());
  for (const { at, hertz, level, length } of tones) {
    for (let n = Math.ceil(at * RATE); n < (at + length) * RATE; n++) {
      const time = n / RATE - at;
      const near = Math.min(time, length - time) / RAMP;
      const envelope = near >= 1 ? 1 : 0.5 - 0.5 * Math.cos(Math.PI * near);
      samples[n] = samples[n]! + level * envelope * Math.sin(2 * Math.PI * hertz * time);
    }
  }
  return samples;
}

const leave = (at: number): Written => ({ at, hertz: 1600, level: 0.5, length: 0.4 });
const pip = (at: number): Written => ({ at, hertz: 1000, level: 0.3, length: 0.1 });

/** Half way up its ramp. */
const middleOf = (at: number): number => at + RAMP / 2;

describe('[onsets]', () => {
  test('every tone in noise is found to a fifth of a millisecond, and nothing else', () => {
    const times = [0.5, 1.700_013, 2.9, 4.100_007, 5.333_333, 6.6, 7.949_99, 9.1];
    const found = onsetsOf(recording(10, times.map(leave), 0.05), RATE, { hertz: 1600, least: 0.2 });
    expect(found).toHaveLength(times.length);
    found.forEach(({ at, level, length }, index) => {
      expect(Math.abs(at - middleOf(times[index]!))).toBeLessThan(0.0002);
      expect(level).toBeGreaterThan(0.45);
      expect(Math.abs(length - 0.385)).toBeLessThan(0.005);
    });
  });

  test('in a clean recording to two hundredths of a millisecond', () => {
    const times = Array.from({ length: 12 }, (_, n) => 0.3 + n * 0.700_123);
    const found = onsetsOf(recording(9, times.map(leave), 0), RATE, { hertz: 1600, least: 0.2 });
    expect(found).toHaveLength(times.length);
    found.forEach(({ at }, index) => expect(Math.abs(at - middleOf(times[index]!))).toBeLessThan(0.000_02));
  });

  test('pitches are told apart, even where they sound together', () => {
    const samples = recording(3, [leave(1), pip(1.2), pip(2)], 0.02);
    expect(onsetsOf(samples, RATE, { hertz: 1600, least: 0.2 })).toHaveLength(1);
    const pips = onsetsOf(samples, RATE, { hertz: 1000, least: 0.1 });
    expect(pips.map(({ at }) => Math.round(at * 100) / 100)).toEqual([1.21, 2.01]);
    expect(onsetsOf(samples, RATE, { hertz: 600, least: 0.1 })).toEqual([]);
  });

  test('noise alone, a click and a tone that is too soft are none', () => {
    const samples = recording(3, [{ ...leave(1), level: 0.1 }], 0.3);
    samples[RATE * 2] = 1;
    expect(onsetsOf(samples, RATE, { hertz: 1600, least: 0.2 })).toEqual([]);
  });

  test('a tone that is cut off by either end of the recording has no beginning here', () => {
    const found = onsetsOf(recording(3, [leave(-0.1), leave(1.5), leave(2.8)], 0.01), RATE, {
      hertz: 1600,
      least: 0.2,
    });
    expect(found.map(({ at }) => Math.round(at * 100) / 100)).toEqual([1.51]);
  });
});
