/*
 * The sound files are what the script makes, in the format they are meant to have.
 */

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const folder = fileURLToPath(new URL('../../../assets/sounds/', import.meta.url));

function read(file: string): { readonly bytes: Buffer; readonly samples: readonly number[] } {
  const bytes = readFileSync(`${folder}${file}`);
  const samples = Array.from({ length: (bytes.length - 44) / 2 }, (_, n) => bytes.readInt16LE(44 + n * 2));
  return { bytes, samples };
}

/** The strength of one frequency in the samples (a single bin of a Fourier transform), 0 to 1. */
function strength(samples: readonly number[], hertz: number): number {
  let re = 0;
  let im = 0;
  samples.forEach((sample, n) => {
    re += sample * Math.cos((2 * Math.PI * hertz * n) / 48_000);
    im += sample * Math.sin((2 * Math.PI * hertz * n) / 48_000);
  });
  return (2 * Math.hypot(re, im)) / samples.length / 32_767;
}

describe.each([
  ['pip.wav', 100],
  ['leave.wav', 400],
])('%s', (file, ms) => {
  const { bytes, samples } = read(file);

  test('48 kHz, mono, 16 bit PCM of its length', () => {
    expect(bytes.toString('latin1', 0, 4)).toBe('RIFF');
    expect([bytes.readUInt16LE(20), bytes.readUInt16LE(22), bytes.readUInt32LE(24), bytes.readUInt16LE(34)]).toEqual([
      1, 1, 48_000, 16,
    ]);
    expect(samples).toHaveLength(48 * ms);
  });

  test('begins and ends in silence over 15 ms, without a click and without clipping', () => {
    expect(Math.abs(samples[0]!)).toBeLessThan(10);
    expect(Math.abs(samples[samples.length - 1]!)).toBeLessThan(10);
    const peak = Math.max(...samples.map(Math.abs));
    expect(peak).toBeLessThan(32_767);
    const earlyPeak = Math.max(...samples.slice(0, 48 * 2).map(Math.abs));
    expect(earlyPeak).toBeLessThan(peak * 0.1);
  });
});

test('the pip is 1 kHz and softer, the leave 1.6 kHz with harmonics', () => {
  const pip = read('pip.wav').samples;
  const leave = read('leave.wav').samples;
  expect(strength(pip, 1000)).toBeGreaterThan(0.2);
  expect(strength(pip, 1600)).toBeLessThan(0.02);
  expect(strength(leave, 1600)).toBeGreaterThan(0.4);
  expect(strength(leave, 3200)).toBeGreaterThan(0.1);
  expect(Math.max(...pip)).toBeLessThan(Math.max(...leave) / 2);
});
