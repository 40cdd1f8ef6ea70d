/*
 * Televisions and Bluetooth loudspeakers doze off when nothing comes, and then swallow the first half
 * second of a tone. A tone of 30 Hz, far below what anybody hears of it, keeps them awake; silence
 * would not.
 */

/** In Hz. */
const PITCH = 30;

/** About 50 dB below full scale. */
const LEVEL = 0.003;

export interface KeepAwake {
  /** Whether it is wanted. */
  want(wanted: boolean): void;
  /** The context that it is to sound on from now on. */
  on(context: AudioContext): void;
  /** The context goes. */
  off(): void;
}

export function createKeepAwake(): KeepAwake {
  let wanted = false;
  let context: AudioContext | null = null;
  let stop: (() => void) | null = null;

  function settle(): void {
    if (wanted && context && !stop) stop = begin(context);
    else if (!wanted && stop) {
      stop();
      stop = null;
    }
  }

  return {
    want(next) {
      wanted = next;
      settle();
    },
    on(next) {
      context = next;
      stop = null;
      settle();
    },
    off() {
      stop?.();
      stop = null;
      context = null;
    },
  };
}

/** Beside the master volume, which is for what is heard; rises and falls softly, so that it does not click. */
function begin(context: AudioContext): () => void {
  const tone = context.createOscillator();
  const level = context.createGain();
  tone.frequency.value = PITCH;
  level.gain.value = 0;
  level.gain.setTargetAtTime(LEVEL, context.currentTime, 0.1);
  tone.connect(level);
  level.connect(context.destination);
  tone.start();
  return () => {
    level.gain.setTargetAtTime(0, context.currentTime, 0.1);
    tone.stop(context.currentTime + 1);
  };
}
