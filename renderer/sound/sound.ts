/*
 * Sound of a page: on or off as this screen remembers, unlocked by the first tap, and fed with cues
 * every quarter of a second. Each cue that is scheduled or taken back is told to the page as an event
 * `lanecall:cue-scheduled` or `lanecall:cue-cancelled` on `window`, with the cue and the time of the
 * page's clock at which it is heard; a diagnostic, of which nothing depends.
 */

import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Link } from '../link/link.ts';
import { createCuePlayer } from './cue-player.ts';
import { openHowler, type AudioOutput } from './howler-output.ts';

export interface SoundState {
  /** `off`: not wanted here. `blocked`: one tap on the page. `gone`: the device does not play. */
  readonly status: 'off' | 'blocked' | 'starting' | 'running' | 'gone' | 'missing';
  /** 0 to 1. */
  readonly volume: number;
}

export interface Sound {
  readonly store: StoreApi<SoundState>;
  /** Both from within a tap. */
  turnOn(): void;
  turnOff(): void;
  setVolume(volume: number): void;
}

type Memory = Pick<Storage, 'getItem' | 'setItem'>;

/** In ms. */
const PASS = 250;

/** How often a device that is gone is tried anew, in ms. */
const RENEW = 5000;

const ON_KEY = 'lanecall.sound';
const VOLUME_KEY = 'lanecall.volume';

/** `memory` keeps what is chosen here; without a choice the sound is on where `first` says so. */
export function openSound(link: Link, memory: Memory | null, first: 'on' | 'off' = 'on'): Sound {
  const volume = storedVolume(memory?.getItem(VOLUME_KEY) ?? null);
  const store = createStore<SoundState>(() => ({ status: 'off', volume }));
  let output: AudioOutput | null = null;
  let wanted = (memory?.getItem(ON_KEY) ?? first) === 'on';
  let renewedAt = -Infinity;
  const player = createCuePlayer(
    { schedule: (kind, heardAt) => output?.schedule(kind, heardAt) ?? (() => undefined) },
    (what, cue) => window.dispatchEvent(new CustomEvent(`lanecall:cue-${what}`, { detail: cue })),
  );

  function pass(): void {
    if (!wanted) {
      player.silence();
      return show('off');
    }
    const now = performance.now();
    output = output ?? openHowler(store.getState().volume);
    const state = output.state(now);
    show(state);
    if (state === 'gone' && now - renewedAt > RENEW) {
      renewedAt = now;
      player.silence();
      output.renew();
    }
    const { run } = link.store.getState();
    const t = link.now();
    player.pass({ now, run: state === 'running' && run && t !== null ? { id: run.id, state: run.state, t } : null });
  }

  function show(status: SoundState['status']): void {
    if (store.getState().status !== status) store.setState({ status });
  }

  function unlock(): void {
    if (wanted && store.getState().status === 'blocked') output?.unlock();
  }

  function want(on: boolean): void {
    wanted = on;
    memory?.setItem(ON_KEY, on ? 'on' : 'off');
    pass();
    if (on) output?.unlock();
  }

  for (const gesture of ['pointerup', 'keydown', 'touchend']) window.addEventListener(gesture, unlock, true);
  setInterval(pass, PASS);
  link.store.subscribe(pass);
  pass();

  return {
    store,
    turnOn: () => want(true),
    turnOff: () => want(false),
    setVolume(next) {
      const to = Math.min(1, Math.max(0, next));
      memory?.setItem(VOLUME_KEY, `${to}`);
      output?.setVolume(to);
      store.setState({ volume: to });
    },
  };
}

function storedVolume(kept: string | null): number {
  const volume = kept === null ? NaN : Number(kept);
  return volume >= 0 && volume <= 1 ? volume : 1;
}
