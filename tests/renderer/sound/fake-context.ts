/*
 * An audio context under test: its clock moves when told, and it writes down what is begun and stopped on it.
 */

export interface Begun {
  readonly buffer: string;
  readonly gain: number;
  readonly startsAt: number;
  stopsAt: number | null;
  /** By when it has faded out; null where it was not broken off. */
  fadesAt: number | null;
  /** Whether it is led to the loudspeaker. */
  connected: boolean;
  ended: () => void;
}

/** What the gain's node and its source share until the sound begins. */
interface Level {
  gain: number;
  fadesAt: number | null;
  connected: boolean;
}

export class FakeContext {
  static all: FakeContext[] = [];
  currentTime = 0;
  baseLatency = 0.08;
  state = 'running';
  destination = {};
  closes = 0;
  resumes = 0;
  /** Whether it answers old browsers' way, by calling back, or with a promise. */
  static callsBack = false;
  /** The page's time at which `currentTime` is heard. */
  heardAt = 0;
  readonly begun: Begun[] = [];
  readonly options: unknown;
  private readonly listeners = new Map<string, () => void>();
  private level: Level = { gain: 1, fadesAt: null, connected: false };

  constructor(options?: unknown) {
    this.options = options;
    FakeContext.all.push(this);
  }

  getOutputTimestamp(): { contextTime: number; performanceTime: number } {
    return { contextTime: this.currentTime, performanceTime: this.heardAt };
  }

  /** Lets its clock and the page's go on together. */
  pass(ms: number): void {
    this.currentTime += ms / 1000;
    this.heardAt += ms;
  }

  addEventListener(event: string, call: () => void): void {
    this.listeners.set(event, call);
  }

  fail(): void {
    this.listeners.get('error')?.();
  }

  resume(): Promise<void> {
    this.resumes++;
    return Promise.reject(new Error('not now'));
  }

  close(): Promise<void> {
    this.closes++;
    return Promise.resolve();
  }

  decodeAudioData(bytes: ArrayBuffer, done: (buffer: unknown) => void, failed: (why: unknown) => void): unknown {
    const name = new TextDecoder().decode(bytes);
    const isSound = name !== 'broken';
    if (!FakeContext.callsBack)
      return isSound ? Promise.resolve(name).then((b) => (done(b), b)) : Promise.reject(new Error(name));
    if (isSound) done(name);
    else failed(new Error(name));
    return undefined;
  }

  createGain(): unknown {
    const level: Level = { gain: 1, fadesAt: null, connected: false };
    this.level = level;
    return {
      gain: {
        get value() {
          return level.gain;
        },
        set value(to: number) {
          level.gain = to;
        },
        setTargetAtTime: (_: number, at: number) => (level.fadesAt = at),
      },
      connect: () => (level.connected = true),
      disconnect: () => (level.connected = false),
    };
  }

  createBufferSource(): unknown {
    const { begun } = this;
    let sound: Begun | null = null;
    const source = {
      buffer: '',
      onended: () => undefined,
      connect: () => undefined,
      start: (at: number) => {
        const { level } = this;
        sound = {
          buffer: source.buffer,
          gain: level.gain,
          startsAt: at,
          stopsAt: null,
          get fadesAt() {
            return level.fadesAt;
          },
          get connected() {
            return level.connected;
          },
          ended: () => source.onended(),
        } as Begun;
        begun.push(sound);
      },
      stop: (at = 0) => {
        if (sound) sound.stopsAt = at;
      },
    };
    return source;
  }
}
