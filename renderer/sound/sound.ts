/*
 * Sound of a page: off until it is switched on there, as this screen remembers; unlocked by the first
 * tap, and fed with cues every quarter of a second. Each cue that is scheduled or taken back is told to
 * the page as an event `lanecall:cue-scheduled` or `lanecall:cue-cancelled` on `window`, with the cue and
 * the time of the page's clock at which it is heard; a diagnostic, of which nothing depends.
 */

import { createStore, type StoreApi } from 'zustand/vanilla';
import { view } from '../../app/core/run/view.ts';
import { pageAlarms } from '../link/time/knocker.ts';
import type { Link } from '../link/link.ts';
import { guarded } from '../link/mishap.ts';
import { createSyncPulse } from './sync-pulse.ts';
import { createCuePlayer, HIDDEN_HORIZON, HORIZON } from './cue-player.ts';
import { openHowler, type AudioOutput } from './output/howler-output.ts';
import { createSoundReporter } from './sound-reporter.ts';
import type { SoundOutput } from './schedule.ts';
import { outputOf, readChoice, writeChoice, type SoundChoice } from './sound-choice.ts';
import { voiceOf } from './output/sound-files.ts';

export interface SoundState {
  /** `off`: not wanted here. `blocked`: one tap on the page. `gone`: the device does not play. */
  readonly status: 'off' | 'blocked' | 'starting' | 'running' | 'gone' | 'missing';
  /** Switched off because another screen was switched on. */
  readonly yielded: boolean;
  /** 0 to 1. */
  readonly volume: number;
  readonly choice: SoundChoice;
  /** Beeps once a second beside a flash. */
  readonly pulsing: boolean;
}

export interface Sound {
  /** The page's link, of which the store says which screens sound. */
  readonly link: Link;
  /** Names this page among the screens that sound. */
  readonly id: string;
  readonly store: StoreApi<SoundState>;
  /** Both from within a tap. */
  turnOn(): void;
  turnOff(): void;
  setVolume(volume: number): void;
  choose(change: Partial<SoundChoice>): void;
  /** Whether a session is going: then nothing else may sound, it would be taken for a leave. */
  isGoing(): boolean;
  /** The tone of a leave, at once. */
  test(): void;
  setPulsing(on: boolean): void;
  /** Whether more than one screen may sound. */
  allowMore(more: boolean): void;
}

/** What the sound needs of the browser. */
export interface SoundPorts {
  /** The page's clock, in ms. */
  now(): number;
  /** Calls again and again, so many ms apart; a hidden page's calls may come later. */
  every(pace: number, call: () => void): void;
  isHidden(): boolean;
  /** Calls whenever that has changed. */
  onHidden(call: () => void): void;
  openOutput(volume: number): AudioOutput;
}

type Memory = Pick<Storage, 'getItem' | 'setItem'>;

/** In ms. */
const PASS = 250;

/** How often the device's clock is looked at, and what is scheduled put right by it, in ms: a step is followed after three looks. */
const LOOK = 50;

/** How often a device that is gone is tried anew, in ms. */
const RENEW = 5000;

/** How far ahead a sound that is wanted at once is scheduled, in ms: more than nearly all devices take. */
const AT_ONCE = 400;

const ON_KEY = 'lanecall.sound';
const VOLUME_KEY = 'lanecall.volume';
const CHOICE_KEY = 'lanecall.sound-choice';

/** `memory` keeps what is chosen here. */
export function openSound(link: Link, memory: Memory | null, ports: SoundPorts = browserPorts()): Sound {
  const id = newId();
  const store = createStore<SoundState>(() => ({
    status: 'off',
    yielded: false,
    volume: storedVolume(memory?.getItem(VOLUME_KEY) ?? null),
    choice: readChoice(memory?.getItem(CHOICE_KEY) ?? null),
    pulsing: false,
  }));
  let output: AudioOutput | null = null;
  let wanted = memory?.getItem(ON_KEY) === 'on';
  let renewedAt = -Infinity;
  const laterOutput: SoundOutput = { schedule: (voice, heardAt) => output!.schedule(voice, heardAt) };
  const player = createCuePlayer(laterOutput, (what, cue) =>
    window.dispatchEvent(new CustomEvent(`lanecall:cue-${what}`, { detail: cue })),
  );
  const syncPulse = createSyncPulse(laterOutput);
  // Without storing it: the next time this screen is opened it may be the one that sounds.
  const reporter = createSoundReporter(link, memory, id, () => {
    wanted = false;
    store.setState({ yielded: true });
    pass();
  });

  function pass(): void {
    if (!wanted) {
      player.silence();
      syncPulse.silence();
      output?.keepAwake(false);
      if (store.getState().pulsing) store.setState({ pulsing: false });
      return show('off');
    }
    const now = ports.now();
    const { volume, choice, pulsing } = store.getState();
    output = output ?? ports.openOutput(volume);
    const status = output.state(now);
    show(status);
    if (status === 'gone' && now - renewedAt > RENEW) {
      renewedAt = now;
      player.silence();
      syncPulse.silence();
      output.renew();
    }
    if (choice.pitches) output.loadPitches();
    output.keepAwake(outputOf(choice).keepAwake);
    const { run } = link.store.getState();
    const t = link.exactNow();
    const shift = outputOf(choice).offset;
    const { pitches } = choice;
    const heard = status === 'running' && run && t !== null ? { id: run.id, state: run.state, t } : null;
    const horizon = ports.isHidden() ? HIDDEN_HORIZON : HORIZON;
    player.pass({ now, run: heard, choice, pitches, shift, horizon });
    if (pulsing && isGoing()) store.setState({ pulsing: false });
    if (store.getState().pulsing && status === 'running') syncPulse.pass(now, shift, horizon);
    else syncPulse.silence();
  }

  function isGoing(): boolean {
    const { run } = link.store.getState();
    const t = link.now();
    return run !== null && t !== null && view(run.state, t).phase === 'going';
  }

  function look(): void {
    if (!wanted) return;
    output?.look(ports.now());
    player.retime();
    syncPulse.retime();
  }

  function show(status: SoundState['status']): void {
    if (store.getState().status === status) return;
    store.setState({ status });
    reporter.tell(status);
  }

  function unlock(): void {
    if (wanted && store.getState().status === 'blocked') output?.unlock();
  }

  function want(on: boolean): void {
    wanted = on;
    memory?.setItem(ON_KEY, on ? 'on' : 'off');
    store.setState({ yielded: false });
    if (on) reporter.tell('starting', true);
    pass();
    if (on) output?.unlock();
  }

  for (const gesture of ['pointerup', 'keydown', 'touchend']) window.addEventListener(gesture, unlock, true);
  const safely = guarded('playing the sound', pass);
  ports.every(PASS, safely);
  ports.every(LOOK, guarded("following the device's clock", look));
  ports.onHidden(safely);
  link.store.subscribe(pass);
  safely();

  return {
    link,
    id,
    store,
    turnOn: () => want(true),
    turnOff: () => want(false),
    setVolume(next) {
      const to = Math.min(1, Math.max(0, next));
      memory?.setItem(VOLUME_KEY, `${to}`);
      output?.setVolume(to);
      store.setState({ volume: to });
    },
    choose(change) {
      const choice = { ...store.getState().choice, ...change };
      memory?.setItem(CHOICE_KEY, writeChoice(choice));
      store.setState({ choice });
      pass();
    },
    isGoing,
    test() {
      if (store.getState().status !== 'running' || isGoing()) return;
      output?.schedule(voiceOf({ kind: 'leave', lanes: [] }, false), ports.now() + AT_ONCE);
    },
    setPulsing(on) {
      store.setState({ pulsing: on && wanted });
      pass();
    },
    allowMore: (more) => reporter.allowMore(more),
  };
}

function browserPorts(): SoundPorts {
  return {
    now: () => performance.now(),
    every: (pace, call) => void pageAlarms().every(pace, call),
    isHidden: () => document.visibilityState === 'hidden',
    onHidden: (call) => document.addEventListener('visibilitychange', call),
    openOutput: openHowler,
  };
}

function storedVolume(kept: string | null): number {
  const volume = kept === null ? NaN : Number(kept);
  return volume >= 0 && volume <= 1 ? volume : 1;
}

/** 128 bits of chance: pages without a secure context have no `randomUUID`. */
function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => (byte + 256).toString(16).slice(1)).join('');
}
