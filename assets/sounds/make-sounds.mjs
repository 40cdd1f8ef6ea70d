/*
 * Makes the sounds beside this file: `node assets/sounds/make-sounds.mjs`. The same bytes each time.
 * 48 kHz, mono, 16 bit: what televisions and HDMI run at, so that nothing is resampled.
 */

import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const RATE = 48_000;
/** Shorter ramps click. */
const RAMP = 0.015;

/** Two pitches nearer to each other than this are not told apart in a hall. */
const STEP = 1.2;
/** Where ears are best and pool noise is weak. */
const LEAVE = 1600;

/**
 * @typedef {{ hertz: number, level: number }} Partial
 * @typedef {{ seconds: number, partials: Partial[] }} Note
 * @typedef {{ file: string, peak: number, notes: Note[], rest?: number }} Sound
 * @type {Sound[]}
 */
const SOUNDS = [
  // Soft, and lower than the tone of the leave, so that a count is not taken for a leave.
  { file: 'pip.wav', peak: 0.35, notes: [{ seconds: 0.1, partials: [{ hertz: 1000, level: 1 }] }] },
  leave('leave.wav', LEAVE),
  // A pitch a lane, in steps from the usual tone; two steps are left out, because the pip is there.
  leave('leave-1.wav', LEAVE * STEP ** -6),
  leave('leave-2.wav', LEAVE * STEP ** -5),
  leave('leave-3.wav', LEAVE * STEP ** -4),
  leave('leave-4.wav', LEAVE * STEP ** -1),
  leave('leave-5.wav', LEAVE * STEP),
  leave('leave-6.wav', LEAVE * STEP ** 2),
  // Down for a stop, up for what ends it: two notes, because three and a pause are an alarm's.
  sign('stop.wav', 1250, 700),
  sign('resume.wav', 700, 1250),
];

/**
 * With harmonics that small loudspeakers carry too.
 * @param {string} file
 * @param {number} hertz
 * @returns {Sound}
 */
function leave(file, hertz) {
  return { file, peak: 0.9, notes: [{ seconds: 0.4, partials: harmonics(hertz, [1, 0.45, 0.2]) }] };
}

/**
 * @param {string} file
 * @param {number[]} pitches
 * @returns {Sound}
 */
function sign(file, ...pitches) {
  const notes = pitches.map((hertz) => ({ seconds: 0.13, partials: harmonics(hertz, [1, 0.3]) }));
  return { file, peak: 0.5, notes, rest: 0.06 };
}

/**
 * @param {number} hertz
 * @param {number[]} levels
 */
function harmonics(hertz, levels) {
  return levels.map((level, index) => ({ hertz: hertz * (index + 1), level }));
}

for (const sound of SOUNDS) writeFileSync(fileURLToPath(new URL(sound.file, import.meta.url)), wav(samplesOf(sound)));

/** @param {Sound} sound */
function samplesOf({ peak, notes, rest = 0 }) {
  const silence = new Array(Math.round(rest * RATE)).fill(0);
  return notes.flatMap((note, index) => [...(index > 0 ? silence : []), ...samplesOfNote(note, peak)]);
}

/**
 * @param {Note} note
 * @param {number} peak
 */
function samplesOfNote({ seconds, partials }, peak) {
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
