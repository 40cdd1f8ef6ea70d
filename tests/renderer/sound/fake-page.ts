/*
 * A page that may sound: its deck, its memory, its clock and an output that does as it is told.
 */

import type { RunState } from '../../../app/core/run/state.ts';
import { givenIn } from '../../../app/core/run/view/given.ts';
import type { Link } from '../../../renderer/link/link.ts';
import { createDeckStore, type DeckRun } from '../../../renderer/link/store.ts';
import type { AudioOutput, OutputState } from '../../../renderer/sound/output/howler-output.ts';
import { openSound, type Sound } from '../../../renderer/sound/sound.ts';

/** What a screen keeps, by what name. */
export const KEYS = { on: 'lanecall.sound', volume: 'lanecall.volume', choice: 'lanecall.sound-choice' };

export class Page {
  now = 5000;
  /** The run's t; null where the clock is not known. */
  t: number | null = 0;
  isHidden = false;
  output: OutputState = 'running';
  readonly kept: Map<string, string>;
  /** What the output was told, in order. */
  readonly told: string[] = [];
  /** What is scheduled and not taken back. */
  readonly sounds = new Map<number, { file: string; heardAt: number }>();
  readonly reports: object[] = [];
  readonly deck = createDeckStore();
  readonly sound: Sound;
  /** Called again and again, by how many ms apart. */
  readonly calls = new Map<number, () => void>();
  private hidden: () => void = () => undefined;
  private n = 0;

  constructor(kept: Readonly<Record<string, string>> = {}, state: RunState | null = null) {
    this.kept = new Map(Object.entries(kept));
    this.follow(state);
    const link = {
      store: this.deck,
      now: () => this.t,
      exactNow: () => this.t,
      sound: ({ status, asked }: { status: string; asked: boolean }) => void this.reports.push({ status, asked }),
    };
    const memory = {
      getItem: (key: string) => this.kept.get(key) ?? null,
      setItem: (key: string, value: string) => void this.kept.set(key, value),
    };
    this.sound = openSound(link as unknown as Link, memory, {
      now: () => this.now,
      every: (pace, call) => void this.calls.set(pace, call),
      isHidden: () => this.isHidden,
      onHidden: (call) => (this.hidden = call),
      openOutput: (volume) => this.open(volume),
    });
  }

  follow(state: RunState | null): void {
    this.deck.setState({ status: 'live', run: state && ({ id: 'run', state, given: givenIn(state) } as DeckRun) });
  }

  /** A pass, as comes four times a second. */
  pass(): void {
    this.calls.get(250)!();
  }

  hide(isHidden: boolean): void {
    this.isHidden = isHidden;
    this.hidden();
  }

  get state() {
    return this.sound.store.getState();
  }

  files(): readonly string[] {
    return [...this.sounds.values()].map(({ file, heardAt }) => `${file} ${heardAt}`);
  }

  count(what: string): number {
    return this.told.filter((each) => each === what).length;
  }

  private open(volume: number): AudioOutput {
    this.told.push(`open ${volume}`);
    return {
      state: () => this.output,
      look: (now) => void this.told.push(`look ${now}`),
      unlock: () => void this.told.push('unlock'),
      renew: () => void this.told.push('renew'),
      setVolume: (to) => void this.told.push(`volume ${to}`),
      keepAwake: (on) => void this.told.push(`keep awake ${on}`),
      loadPitches: () => void this.told.push('pitches'),
      schedule: ({ file }, heardAt) => {
        const sound = this.n++;
        this.sounds.set(sound, { file, heardAt });
        const retime = (to: number): void => void this.told.push(`retime ${to}`);
        return { retime, cancel: () => void this.sounds.delete(sound), release: () => undefined };
      },
    };
  }
}
