/*
 * The mapping between the page's clock and an audio device that trembles, gains, is now and then a whole
 * buffer wrong, and steps.
 */

import { describe, expect, test } from 'vitest';
import { createAudioMapping, type AudioMapping } from '../../../../renderer/sound/output/audio-mapping.ts';

/** In ms. */
const LOOK = 50;

interface Device {
  /** How much it gains, in millionths. */
  readonly gains: number;
  /** By how much each look is off, in ms; by its number. */
  off(n: number): number;
  /** By how far it has stepped by a time of the page, in ms. */
  stepped?(at: number): number;
}

/** The context's time in ms when the page's clock shows `at`. */
const truth = ({ gains, stepped }: Device, at: number): number => 1_000 + at * (1 + gains / 1e6) + (stepped?.(at) ?? 0);

/** Looks from one time to another, `pace` ms apart. */
function look(mapping: AudioMapping, device: Device, from: number, to: number, pace = LOOK): void {
  for (let at = from; at < to; at += pace) {
    const contextTime = (truth(device, at) + device.off(Math.round(at / LOOK))) / 1000;
    mapping.take({ contextTime, pageTime: at });
  }
}

/** By how many ms a sound for the page's time `at` would be wrong. */
const errorAt = (mapping: AudioMapping, device: Device, at: number): number =>
  mapping.contextTimeFor(at)! * 1000 - truth(device, at);

/** -1 to 1, the same each time. */
const noise = (n: number): number => ((Math.sin(n * 12.9898) * 43_758.5453) % 1) * 1;

describe('[sound] mapping', () => {
  test('none before three looks; then by their middle', () => {
    const mapping = createAudioMapping();
    const device = { gains: 0, off: (n: number) => (n === 0 ? 11 : 0) };
    look(mapping, device, 0, 2 * LOOK);
    expect(mapping.contextTimeFor(500)).toBeNull();
    look(mapping, device, 2 * LOOK, 3 * LOOK);
    expect(errorAt(mapping, device, 2_000)).toBeCloseTo(0, 6);
  });

  test('looks that tremble by half a millisecond are right together to a quarter', () => {
    const mapping = createAudioMapping();
    const device = { gains: 0, off: (n: number) => noise(n) / 2 };
    look(mapping, device, 0, 3_000);
    for (let at = 3_000; at < 60_000; at += 1_000) {
      look(mapping, device, at, at + 1_000);
      expect(Math.abs(errorAt(mapping, device, at + 1_200))).toBeLessThan(0.25);
    }
  });

  test('a device that gains does not run away: the error after an hour is that of the first minute', () => {
    const mapping = createAudioMapping();
    const device = { gains: 134, off: () => 0 };
    look(mapping, device, 0, 60_000);
    for (let at = 60_000; at < 80_000; at += 1_000) {
      look(mapping, device, at, at + 1_000);
      expect(Math.abs(errorAt(mapping, device, at + 1_200))).toBeLessThan(0.2);
    }
    const first = errorAt(mapping, device, 80_200);
    expect(Math.abs(first)).toBeLessThan(0.2);
    look(mapping, device, 3_600_000, 3_660_000);
    expect(errorAt(mapping, device, 3_660_200)).toBeCloseTo(first, 2);
  });

  test('single looks that are a whole buffer wrong change nothing', () => {
    const mapping = createAudioMapping();
    const device = { gains: 0, off: (n: number) => (n % 17 === 0 ? 10 : n % 23 === 0 ? -6 : 0) };
    look(mapping, device, 0, 20_000);
    expect(errorAt(mapping, device, 22_000)).toBeCloseTo(0, 6);
  });

  test('a step is followed with the third look at it', () => {
    const mapping = createAudioMapping();
    const device = { gains: 0, off: () => 0, stepped: (at: number) => (at >= 15_000 ? -9 : 0) };
    look(mapping, device, 0, 15_000 + 2 * LOOK);
    expect(errorAt(mapping, device, 15_100)).toBeCloseTo(9, 6);
    look(mapping, device, 15_000 + 2 * LOOK, 15_000 + 3 * LOOK);
    expect(errorAt(mapping, device, 15_200)).toBeCloseTo(0, 6);
  });

  test('a few looks that agree with nothing, not even with each other, are no step', () => {
    const mapping = createAudioMapping();
    const device = { gains: 0, off: (n: number) => (n > 200 && n < 206 ? (n % 2 === 0 ? 5 : 12) : 0) };
    look(mapping, device, 0, 20_000);
    expect(errorAt(mapping, device, 22_000)).toBeCloseTo(0, 6);
    look(mapping, { ...device, off: (n) => (n % 2 === 0 ? 5 : 12) }, 20_000, 20_250);
    expect(errorAt(mapping, device, 22_000)).toBeCloseTo(0, 6);
  });

  test('a device that goes from step to step is followed all the same', () => {
    const mapping = createAudioMapping();
    const stepped = (at: number): number => (at < 15_000 ? 0 : -4 * Math.ceil((at - 15_000) / 90));
    const device = { gains: 0, off: () => 0, stepped };
    look(mapping, device, 0, 17_000);
    expect(Math.abs(errorAt(mapping, device, 17_000))).toBeLessThan(25);
  });

  test('a covered page that looks once a second has a mapping too, and it does not grow old', () => {
    const mapping = createAudioMapping();
    const device = { gains: 134, off: (n: number) => (n % 60 === 0 ? 10 : 0) };
    look(mapping, device, 0, 60_000, 1_000);
    expect(Math.abs(errorAt(mapping, device, 61_000))).toBeLessThan(1);
  });

  test('the same stamp twice is one look, also where it strays', () => {
    const mapping = createAudioMapping();
    for (let time = 0; time < 5; time++) mapping.take({ contextTime: 1, pageTime: 1_000 });
    expect(mapping.contextTimeFor(2_000)).toBeNull();
    const stepped = createAudioMapping();
    const device = { gains: 0, off: () => 0 };
    look(stepped, device, 0, 1_000);
    for (let time = 0; time < 10; time++) stepped.take({ contextTime: 9, pageTime: 1_000 });
    expect(errorAt(stepped, device, 2_000)).toBeCloseTo(0, 6);
  });

  test('a stray before a step does not hold it up', () => {
    const mapping = createAudioMapping();
    const device = { gains: 0, off: (n: number) => (n < 200 ? 0 : n === 200 ? -40 : 9) };
    look(mapping, device, 0, 10_200);
    expect(errorAt(mapping, device, 10_200)).toBeCloseTo(9, 6);
  });

  test('six strays in a row are followed, even where they do not agree; five are not', () => {
    const mapping = createAudioMapping();
    const device = { gains: 0, off: (n: number) => (n < 200 ? 0 : n % 2 === 0 ? 5 : 12) };
    look(mapping, device, 0, 10_250);
    expect(errorAt(mapping, device, 10_250)).toBeCloseTo(0, 6);
    look(mapping, device, 10_250, 10_300);
    // The middle of the last three: 12, 5 and 12.
    expect(errorAt(mapping, device, 10_300)).toBeCloseTo(12, 6);
  });

  test('of an even number of looks the middle is between two', () => {
    const mapping = createAudioMapping();
    const device = { gains: 0, off: (n: number) => (n < 2 ? 0 : 0.8) };
    look(mapping, device, 0, 4 * LOOK);
    expect(errorAt(mapping, device, 200)).toBeCloseTo(0.4, 6);
  });
});
