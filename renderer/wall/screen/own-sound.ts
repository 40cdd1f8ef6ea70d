/*
 * The sound of a wall screen: off until somebody at the screen switches it on, and kept apart from what
 * the coach's window of the same browser has chosen. What plays it is loaded only then.
 */

import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Sound, SoundState } from '../../sound/sound.ts';

export interface OwnSoundState {
  /** `loading`: what plays is on its way; `failed`: it did not come, another try may help. */
  readonly status: SoundState['status'] | 'loading' | 'failed';
  /** Switched off because another screen was switched on. */
  readonly yielded: boolean;
}

export interface OwnSound {
  readonly store: StoreApi<OwnSoundState>;
  /** On where it is off or did not come, else off; to be called within a tap or a key press. */
  toggle(): Promise<void>;
  /** What plays, for its settings; null before it was switched on. */
  player(): Sound | null;
}

type Memory = Pick<Storage, 'getItem' | 'setItem'>;

/** memory: null where the browser keeps nothing; load: gives the player, which keeps its choice in what it is handed. */
export function openOwnSound(
  memory: Memory | null,
  canPlay: boolean,
  load: (memory: Memory) => Promise<Sound>,
): OwnSound {
  const kept = wallMemory(memory);
  const store = createStore<OwnSoundState>(() => ({ status: canPlay ? 'off' : 'missing', yielded: false }));
  let sound: Sound | null = null;

  async function loaded(): Promise<Sound | null> {
    if (sound) return sound;
    store.setState({ status: 'loading' });
    try {
      const own = await load(kept);
      sound = own;
      const follow = ({ status, yielded }: SoundState): void => store.setState({ status, yielded });
      own.store.subscribe(follow);
      follow(own.store.getState());
    } catch {
      store.setState({ status: 'failed' });
    }
    return sound;
  }

  if (canPlay && kept.getItem(ON_KEY) === 'on') void loaded();

  return {
    store,
    async toggle() {
      const { status } = store.getState();
      if (status === 'missing' || status === 'loading') return;
      const wasOn = status !== 'off' && status !== 'failed';
      const own = await loaded();
      if (wasOn) own?.turnOff();
      else own?.turnOn();
    },
    player: () => sound,
  };
}

/** The player's own name for its choice. */
const ON_KEY = 'lanecall.sound';

/** Keeps under names of the wall's own; for as long as the page lives where the browser keeps nothing. */
function wallMemory(memory: Memory | null): Memory {
  const here = new Map<string, string>();
  const nameOf = (key: string): string => `${key}.wall`;
  return {
    getItem: (key) => here.get(key) ?? memory?.getItem(nameOf(key)) ?? null,
    setItem(key, value) {
      here.set(key, value);
      try {
        memory?.setItem(nameOf(key), value);
      } catch {
        // A full or forbidden storage costs the choice after the next reload, nothing now.
      }
    },
  };
}
