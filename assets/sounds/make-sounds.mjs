/*
 * Makes the sounds beside this file: `node assets/sounds/make-sounds.mjs`. The same bytes each time.
 * 48 kHz, mono, 16 bit: what televisions and HDMI run at, so that nothing is resampled.
 */

import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const RATE = 48_000;
/** Shorter ramps click. */
const RAMP = 0.015;

/**
 * @typedef {{ hertz: number, level: number }} Partial
 * @typedef {{ file: string, seconds: number, peak: number, partials: Partial[] }} Sound
 * @type {Sound[]}
 */
const SOUNDS = [
  // Soft, and lower than the tone of the leave, so that a count is not taken for a leave.
  { file: 'pip.wav', seconds: 0.1, peak: 0.35, partials: [{ hertz: 1000, level: 1 }] },
  // Where ears are best and pool noise is weak, with harmonics that small loudspeakers carry too.
  {
    file: 'leave.wav',
    seconds: 0.4,
    peak: 0.9,
    partials: [
      { hertz: 1600, level: 1 },
      { hertz: 3200, level: 0.45 },
      { hertz: 4800, level: 0.2 },
    ],
  },
];

for (const sound of SOUNDS) writeFileSync(fileURLToPath(new URL(sound.file, import.meta.url)), wav(samplesOf(sound)));

/** @param {Sound} sound */
function samplesOf({ seconds, peak, partials }) {
  const count = Math.round(seconds * RATE);
  const wave = Array.from({ length: count }, (_, n) =>
    partials.reduce((sum, { hertz, level }) => sum + level * Math.sin((2 * Math.PI * hertz * n) / RATE), 0),
  );
  const loudest = wave.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  return wave.map((value, n) => Math.round((value / loudest) * peak * envelope(n, count) * 32_767));
}

/**
 * Rises and falls as half a cosine.
 * @param {number} n
 * @param {number} count
 */
function envelope(n, count) {
  const ramp = RAMP * RATE;
  const near = Math.min(n, count - 1 - n);
  return near >= ramp ? 1 : 0.5 - 0.5 * Math.cos((Math.PI * near) / ramp);
}

/** @param {number[]} samples */
function wav(samples) {
  const head = Buffer.alloc(44);
  head.write('RIFF', 0);
  head.writeUInt32LE(36 + samples.length * 2, 4);
  head.write('WAVEfmt ', 8);
  head.writeUInt32LE(16, 16);
  head.writeUInt16LE(1, 20);
  head.writeUInt16LE(1, 22);
  head.writeUInt32LE(RATE, 24);
  head.writeUInt32LE(RATE * 2, 28);
  head.writeUInt16LE(2, 32);
  head.writeUInt16LE(16, 34);
  head.write('data', 36);
  head.writeUInt32LE(samples.length * 2, 40);
  const data = Buffer.alloc(samples.length * 2);
  samples.forEach((sample, n) => data.writeInt16LE(sample, n * 2));
  return Buffer.concat([head, data]);
}
