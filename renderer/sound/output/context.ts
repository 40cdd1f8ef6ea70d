/*
 * The audio context on which everything sounds. It is howler's, but with longer buffers than howler
 * asks for: a busy machine tears holes into short ones, and each hole makes all that follows late.
 * Nothing is lost by it, since everything is scheduled ahead.
 */

import { Howler } from 'howler';

/**
 * In s, of sound rendered at once. On the way to the loudspeaker that makes about a fifth of a second,
 * less than the quarter within which a leave cannot be called back any more.
 */
const BUFFERED = 0.08;

/** A new context, in place of any before it. */
export function openContext(volume: number): void {
  // Before there is a context: howler would put it to sleep after 30 s of silence and replace it on a
  // device that does not run at 44.1 kHz.
  Howler.autoSuspend = false;
  Howler.autoUnlock = false;
  if (audio()) Howler.unload();
  Howler.volume(volume);
  const short = audio();
  const long = short && buffered();
  if (!short || !long) return;
  void short.close();
  Howler.ctx = long;
  Howler.masterGain = long.createGain();
  Howler.masterGain.gain.value = volume;
  Howler.masterGain.connect(long.destination);
}

/** howler has none where the browser has no Web Audio, whatever its types say. */
export function audio(): AudioContext | null {
  return (Howler.ctx as AudioContext | null | undefined) ?? null;
}

/** null where the browser cannot be asked for it, or has no more contexts to give. */
function buffered(): AudioContext | null {
  try {
    return new AudioContext({ latencyHint: BUFFERED });
  } catch {
    return null;
  }
}
