/*
 * The sounds themselves, on howler's audio context: howler mixes, has the master volume and deals with
 * old browsers. It has no start time to give and keeps what it decodes to itself, so the sounds are
 * decoded on its context here, and each is started at its time on the device's clock.
 */

import { Howler } from 'howler';
import { createMotion, readStamp } from './audio-clock.ts';
import { createAudioMapping } from './audio-mapping.ts';
import { audio, openContext } from './context.ts';
import { createDeviceWatch } from './device-watch.ts';
import { createKeepAwake } from './keep-awake.ts';
import { NO_SOUND, type ScheduledSound, type SoundOutput } from '../schedule.ts';
import { PITCH_FILES, PLAIN_FILES, SOUND_URLS, type SoundFile, type SoundVoice } from './sound-files.ts';

/** How the way to the loudspeaker stands. */
export type OutputState = 'blocked' | 'starting' | 'running' | 'gone' | 'missing';

export interface AudioOutput extends SoundOutput {
  state(now: number): OutputState;
  /** Looks at the device's clock, to be called often. */
  look(now: number): void;
  /** To be called inside a tap or a key press: browsers allow sound from then on. */
  unlock(): void;
  /** A new context in place of one whose device is gone. */
  renew(): void;
  /** 0 to 1. */
  setVolume(volume: number): void;
  /** A tone too soft to be heard, for loudspeakers that doze off in silence. */
  keepAwake(on: boolean): void;
  /** A pitch a lane needs more files. */
  loadPitches(): void;
}

/** A sound that could only begin this much too late, in s, is not begun: a late tone sends nobody off. */
const TOO_LATE = 0.06;

/** What is scheduled is moved where it is off by more, in s: less is what the clocks tremble by. */
const WORTH_MOVING = 0.0002;

/** So shortly before its start, in s and a buffer, a sound is left alone: it may be rendered this very moment. */
const BEGINS = 0.02;

export function openHowler(volume: number): AudioOutput {
  openContext(volume);
  const keepAwake = createKeepAwake();
  const devices = createDeviceWatch((navigator as Partial<Navigator>).mediaDevices);
  let buffers = new Map<SoundFile, AudioBuffer>();
  let motion = createMotion();
  let mapping = createAudioMapping();
  let hasRun = false;
  let failed = false;
  let pitches = false;
  open();

  function open(): void {
    const context = audio();
    if (!context) return;
    buffers = new Map();
    motion = createMotion();
    mapping = createAudioMapping();
    hasRun = failed = false;
    context.addEventListener('error', () => {
      if (context === audio()) failed = true;
    });
    load(context, PLAIN_FILES);
    if (pitches) load(context, PITCH_FILES);
    keepAwake.on(context);
  }

  function load(context: AudioContext, files: readonly SoundFile[]): void {
    const into = buffers;
    for (const file of files) {
      void fetch(SOUND_URLS[file])
        .then((response) => response.arrayBuffer())
        .then((bytes) => decode(context, bytes))
        .then((buffer) => into.set(file, buffer))
        // Without its sounds the output stays in "starting", which is shown.
        .catch(() => undefined);
    }
  }

  return {
    state(now) {
      const context = audio();
      if (!context) return 'missing';
      // The context does not find back to a device by itself: gone until there is a new one.
      failed = failed || devices.isGone();
      if (failed || context.state === 'closed') return 'gone';
      if (context.state !== 'running') {
        // It was allowed to sound before: what has taken that away (another program, a sleep) may be over.
        if (hasRun) void context.resume().catch(() => undefined);
        return 'blocked';
      }
      const moves = motion.look(context.currentTime, readStamp(context, now) !== null, now);
      if (moves === 'still') return 'gone';
      const isReady = PLAIN_FILES.every((file) => buffers.has(file)) && mapping.contextTimeFor(now) !== null;
      if (moves === 'starting' || !isReady) return 'starting';
      hasRun = true;
      return 'running';
    },
    look(now) {
      devices.look(now);
      const context = audio();
      const stamp = context && context.state === 'running' ? readStamp(context, now) : null;
      if (stamp !== null) mapping.take(stamp);
    },
    unlock() {
      // What a context says against it shows in its state.
      audio()
        ?.resume()
        .catch(() => undefined);
    },
    renew() {
      keepAwake.off();
      openContext(Howler.volume());
      open();
    },
    setVolume: (to) => void Howler.volume(to),
    keepAwake: (on) => keepAwake.want(on),
    loadPitches() {
      const context = audio();
      if (!pitches && context) load(context, PITCH_FILES);
      pitches = true;
    },
    schedule(voice, heardAt) {
      const context = audio();
      // A pitch that has not come yet is no reason for silence.
      const buffer = buffers.get(voice.file) ?? buffers.get('leave');
      if (!context || !buffer) return NO_SOUND;
      return scheduled(context, buffer, voice, () => mapping, heardAt);
    },
  };
}

type Mapping = ReturnType<typeof createAudioMapping>;

/** One sound on a context; `mapping` gives the mapping in force. */
function scheduled(
  context: AudioContext,
  buffer: AudioBuffer,
  { gain }: SoundVoice,
  mapping: () => Mapping,
  heardAt: number,
): ScheduledSound {
  let start = mapping().contextTimeFor(heardAt) ?? -Infinity;
  let stop = begin(context, buffer, gain, start);
  return {
    retime(to) {
      const next = mapping().contextTimeFor(to);
      const settled = context.currentTime + (context.baseLatency || 0) + BEGINS;
      if (next === null || Math.abs(next - start) < WORTH_MOVING || start < settled) return;
      stop();
      start = next;
      stop = begin(context, buffer, gain, start);
    },
    cancel: () => stop(),
    release() {
      if (start > context.currentTime) stop();
    },
  };
}

/** Returns what stops it. */
function begin(context: AudioContext, buffer: AudioBuffer, gain: number, start: number): () => void {
  if (start < context.currentTime - TOO_LATE) return () => undefined;
  const source = context.createBufferSource();
  const level = context.createGain();
  source.buffer = buffer;
  level.gain.value = gain;
  source.connect(level);
  level.connect(Howler.masterGain);
  source.onended = () => level.disconnect();
  source.start(Math.max(start, context.currentTime));
  return () => {
    if (start > context.currentTime) {
      source.stop();
      level.disconnect();
    } else {
      // Cut off in the middle it would click.
      level.gain.setTargetAtTime(0, context.currentTime, FADE);
      source.stop(context.currentTime + 5 * FADE);
    }
  };
}

/** Time constant of a sound that is broken off, in s. */
const FADE = 0.005;

/** Old browsers call back, and give no promise. */
function decode(context: AudioContext, bytes: ArrayBuffer): Promise<AudioBuffer> {
  return new Promise((resolve, reject) => {
    const promise = context.decodeAudioData(bytes, resolve, reject) as Promise<AudioBuffer> | undefined;
    promise?.catch(reject);
  });
}
