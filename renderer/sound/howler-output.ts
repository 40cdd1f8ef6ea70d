/*
 * The sounds themselves, on howler's audio context: howler makes the context, the master volume and
 * deals with old browsers; the start time is given here, because its `play()` takes none.
 */

import { Howler } from 'howler';
import leaveUrl from '../../assets/sounds/leave.wav?url';
import pipUrl from '../../assets/sounds/pip.wav?url';
import type { Cue } from '../../app/core/sound/cues.ts';
import { contextTimeFor, createMotion } from './audio-clock.ts';
import type { CueOutput } from './cue-player.ts';

/** How the way to the loudspeaker stands. */
export type OutputState = 'blocked' | 'starting' | 'running' | 'gone' | 'missing';

export interface AudioOutput extends CueOutput {
  state(now: number): OutputState;
  /** To be called inside a tap or a key press: browsers allow sound from then on. */
  unlock(): void;
  /** A new context in place of one whose device is gone. */
  renew(): void;
  setVolume(volume: number): void;
}

const SOURCES: { readonly [kind in Cue['kind']]: string } = { leave: leaveUrl, pip: pipUrl };

export function openHowler(volume: number): AudioOutput {
  // Before the context exists: howler would put it to sleep after 30 s of silence and replace it on a
  // device that does not run at 44.1 kHz.
  Howler.autoSuspend = false;
  Howler.autoUnlock = false;
  Howler.volume(volume);
  const buffers = new Map<Cue['kind'], AudioBuffer>();
  let motion = createMotion();
  load();

  function load(): void {
    const context = audio();
    if (!context) return;
    buffers.clear();
    for (const kind of ['leave', 'pip'] as const) {
      void fetch(SOURCES[kind])
        .then((response) => response.arrayBuffer())
        .then((bytes) => context.decodeAudioData(bytes))
        .then((buffer) => buffers.set(kind, buffer))
        // Without its sounds the output stays in "starting", which is shown.
        .catch(() => undefined);
    }
  }

  return {
    state(now) {
      const context = audio();
      if (!context) return 'missing';
      if (context.state !== 'running') return 'blocked';
      const stamped = !context.getOutputTimestamp || (context.getOutputTimestamp().performanceTime ?? 0) > 0;
      const moves = motion.look(context.currentTime, stamped, now);
      if (moves === 'still') return 'gone';
      return moves === 'starting' || buffers.size < 2 ? 'starting' : 'running';
    },
    unlock() {
      void audio()?.resume();
    },
    renew() {
      Howler.unload();
      motion = createMotion();
      load();
    },
    setVolume: (to) => void Howler.volume(to),
    schedule(kind, heardAt) {
      const context = audio();
      const buffer = buffers.get(kind);
      if (!context || !buffer) return () => undefined;
      const source = context.createBufferSource();
      source.buffer = buffer;
      source.connect(Howler.masterGain);
      source.start(Math.max(0, contextTimeFor(context, heardAt, performance.now())));
      return () => {
        source.stop();
        source.disconnect();
      };
    },
  };
}

/** howler has none where the browser has no Web Audio, whatever its types say. */
function audio(): AudioContext | null {
  return (Howler.ctx as AudioContext | null | undefined) ?? null;
}
