/*
 * The sound files are what the script makes, in the format they are meant to have.
 */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const folder = fileURLToPath(new URL('../../../assets/sounds/', import.meta.url));

function read(file: string): { readonly bytes: Buffer; readonly samples: readonly number[] } {
  const bytes = readFileSync(`${folder}${file}`);
  const samples = Array.from({ length: (bytes.length - 44) / 2 }, (_, n) => bytes.readInt16LE(44 + n * 2));
  return { bytes, samples };
}

/** The strength of one frequency in the samples (a single bin of a Fourier transform, by Goertzel's recurrence), 0 to 1. */
function strength(samples: readonly number[], hertz: number): number {
  const turn = 2 * Math.cos((2 * Math.PI * hertz) / 48_000);
  let [last, before] = [0, 0];
  for (const sample of samples) [last, before] = [sample + turn * last - before, last];
  return (2 * Math.sqrt(last ** 2 + before ** 2 - turn * last * before)) / samples.length / 32_767;
}

const LANES = [1, 2, 3, 4, 5, 6].map((lane) => `leave-${lane}.wav`);

describe.each([
  ['pip.wav', 100],
  ['leave.wav', 400],
  ['stop.wav', 320],
  ['resume.wav', 320],
  ...LANES.map((file): [string, number] => [file, 400]),
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

test('a lane’s pitch is a fifth or more from every other, from the usual tone and from the pip, and none above 2.5 kHz', () => {
  // NUREG-0700: tones that are to be told apart are at least 20 % of their frequency from each other;
  // JIS S 0014: fundamentals of at most 2500 Hz.
  const pitches = [...LANES.map((file) => pitchOf(read(file).samples)), 1600, 1000].sort((a, b) => a - b);
  pitches.slice(1).forEach((hertz, index) => expect(hertz / pitches[index]!).toBeGreaterThan(1.195));
  expect(pitches[pitches.length - 1]).toBeLessThan(2500);
  expect(pitches[0]).toBeGreaterThan(500);
});

test('a stop goes down and its end goes up, in the same two notes, louder than a pip and softer than a leave', () => {
  const [stop, resume] = [read('stop.wav').samples, read('resume.wav').samples];
  const notes = (samples: readonly number[]): readonly number[] =>
    [samples.slice(0, 130 * 48), samples.slice(-130 * 48)].map(pitchOf);
  const [high, low] = notes(stop);
  expect(high! / low!).toBeGreaterThan(1.5);
  expect(notes(resume)).toEqual([low, high]);
  const peak = (file: string): number => Math.max(...read(file).samples);
  expect(peak('stop.wav')).toBeGreaterThan(peak('pip.wav'));
  expect(peak('stop.wav')).toBeLessThan(peak('leave.wav') * 0.7);
});

/** The strongest pitch between 400 and 2600 Hz, to 4 Hz. */
function pitchOf(samples: readonly number[]): number {
  let best = 0;
  let most = -1;
  for (let hertz = 400; hertz <= 2600; hertz += 4) {
    const here = strength(samples, hertz);
    if (here > most) [best, most] = [hertz, here];
  }
  return best;
}

test('the files are what the script makes', () => {
  const before = readdirSync(folder).map((file) => [file, readFileSync(`${folder}${file}`)] as const);
  const copy = mkdtempSync(join(tmpdir(), 'lanecall-sounds-'));
  writeFileSync(join(copy, 'make-sounds.mjs'), readFileSync(`${folder}make-sounds.mjs`));
  expect(spawnSync(process.execPath, [join(copy, 'make-sounds.mjs')]).status).toBe(0);
  expect(readdirSync(copy).sort()).toEqual(before.map(([file]) => file).sort());
  for (const [file, bytes] of before) expect(readFileSync(join(copy, file)).equals(bytes), file).toBe(true);
  rmSync(copy, { recursive: true });
});
