/*
 * Finds where tones begin in a recording: each pitch by itself, whatever else sounds. A pitch is mixed
 * down to nothing and smoothed over 5 ms twice, which wipes out every pitch that is a multiple of 200 Hz
 * away; the beginning is where the tone has come to half of its strength.
 */

export interface Onset {
  /** In s from the recording's beginning. */
  readonly at: number;
  /** Of the tone at its strongest, 0 to 1. */
  readonly level: number;
  /** For how long it stays above half of that, in s. */
  readonly length: number;
}

export interface Pitch {
  readonly hertz: number;
  /** A tone that never comes to this is none. */
  readonly least: number;
}

/** In s: the smoothing, two times over. */
const SMOOTHED = 0.005;

/** A tone is no shorter than this, in s: what is shorter is a click. */
const SHORTEST = 0.03;

/**
 * @param samples of one channel, -1 to 1
 * @param rate samples a second, a multiple of 200
 * @returns the beginnings of all tones of the pitch, by time, to a small part of a sample in a clean
 * recording; those of a tone that sounds when the recording begins or ends are left out
 */
export function onsetsOf(samples: Float32Array, rate: number, { hertz, least }: Pitch): readonly Onset[] {
  const strength = strengthOf(samples, rate, hertz);
  const edge = 2 * SMOOTHED * rate;
  const onsets: Onset[] = [];
  for (let from = 0; from < strength.length; from++) {
    if (strength[from]! < least) continue;
    let to = from;
    let level = 0;
    while (to < strength.length && strength[to]! >= least) level = Math.max(level, strength[to++]!);
    // Smoothing makes the ends of the recording look like a beginning and an end.
    const isWhole = from > edge && to < strength.length - edge;
    const onset = isWhole ? onsetWithin(strength, from, to, level, rate) : null;
    if (onset && onset.length >= SHORTEST) onsets.push(onset);
    from = to;
  }
  return onsets;
}

/** The strength of a pitch around each sample. */
function strengthOf(samples: Float32Array, rate: number, hertz: number): Float32Array {
  const turn = (2 * Math.PI * hertz) / rate;
  const cosines = samples.map((sample, n) => sample * Math.cos(turn * n));
  const sines = samples.map((sample, n) => sample * Math.sin(turn * n));
  const width = Math.round(SMOOTHED * rate);
  const real = smoothedTwice(cosines, width);
  const imaginary = smoothedTwice(sines, width);
  return real.map((each, n) => 2 * Math.hypot(each, imaginary[n]!));
}

/** Half a sample early the first time, half a sample late the second. */
function smoothedTwice(values: Float32Array, width: number): Float32Array {
  const half = width >>> 1;
  return smoothed(smoothed(values, width, half), width, width - 1 - half);
}

/** Means over `width` samples of which `ahead` lie ahead. */
function smoothed(values: Float32Array, width: number, ahead: number): Float32Array {
  const out = new Float32Array(values.length);
  // In double precision, or a long recording would drift away from its own sum.
  let sum = 0;
  for (let n = 0; n < values.length + ahead; n++) {
    sum += (values[n] ?? 0) - (values[n - width] ?? 0);
    if (n >= ahead) out[n - ahead] = sum / width;
  }
  return out;
}

function onsetWithin(strength: Float32Array, from: number, to: number, level: number, rate: number): Onset {
  const half = level / 2;
  let first = from;
  while (first > 0 && strength[first]! >= half) first--;
  while (strength[first + 1]! < half) first++;
  let last = to;
  while (strength[last - 1]! < half) last--;
  const below = strength[first]!;
  const part = (half - below) / (strength[first + 1]! - below);
  return { at: (first + part) / rate, level, length: (last - first) / rate };
}
