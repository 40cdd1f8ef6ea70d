import { createStore } from 'zustand/vanilla';
import { expect, test } from 'vitest';
import { createDeckStore } from '../../../../renderer/link/store.ts';
import { PLAIN_CHOICE } from '../../../../renderer/sound/sound-choice.ts';
import type { Sound, SoundState } from '../../../../renderer/sound/sound.ts';
import { openOwnSound, type OwnSound } from '../../../../renderer/wall/screen/own-sound.ts';

class Kept {
  readonly all = new Map<string, string>();
  getItem(key: string): string | null {
    return this.all.get(key) ?? null;
  }
  setItem(key: string, value: string): void {
    this.all.set(key, value);
  }
}

/** A player that does as the real one with its choice, and counts how often it is loaded. */
function player() {
  let loads = 0;
  let fails = false;
  let made: Sound | null = null;
  const load = (memory: Pick<Storage, 'getItem' | 'setItem'>): Promise<Sound> => {
    loads++;
    if (fails) return Promise.reject(new Error('gone'));
    const status = memory.getItem('lanecall.sound') === 'on' ? 'blocked' : 'off';
    const store = createStore<SoundState>(() => ({
      status,
      yielded: false,
      volume: 1,
      choice: PLAIN_CHOICE,
      pulsing: false,
    }));
    const turn = (to: 'on' | 'off') => (): void => {
      memory.setItem('lanecall.sound', to);
      store.setState({ status: to === 'on' ? 'running' : 'off', yielded: false });
    };
    const nothing = (): void => undefined;
    const others = { setVolume: nothing, choose: nothing, test: nothing, setPulsing: nothing, allowMore: nothing };
    const link = { store: createDeckStore() } as unknown as Sound['link'];
    made = { link, id: 'wall', store, turnOn: turn('on'), turnOff: turn('off'), isGoing: () => false, ...others };
    return Promise.resolve(made);
  };
  return { load, loads: () => loads, fail: (so: boolean) => void (fails = so), made: () => made };
}

function statusOf(sound: OwnSound): string {
  return sound.store.getState().status;
}

const settled = (): Promise<void> => Promise.resolve().then(() => Promise.resolve());

test('is off, and nothing that plays is loaded, until it is switched on', async () => {
  const { load, loads } = player();
  const sound = openOwnSound(new Kept(), true, load);
  expect([statusOf(sound), loads()]).toEqual(['off', 0]);
  const on = sound.toggle();
  expect(statusOf(sound)).toBe('loading');
  await on;
  expect([statusOf(sound), loads()]).toEqual(['running', 1]);
  await sound.toggle();
  expect([statusOf(sound), loads()]).toEqual(['off', 1]);
});

test("is remembered, apart from the choice of the coach's window in the same browser", async () => {
  const kept = new Kept();
  kept.setItem('lanecall.sound', 'on');
  const { load, loads } = player();
  await openOwnSound(kept, true, load).toggle();
  expect(loads()).toBe(1);
  kept.setItem('lanecall.sound', 'off');
  const again = openOwnSound(kept, true, load);
  await settled();
  expect([statusOf(again), loads()]).toEqual(['blocked', 2]);
});

test('a choice of the other window switches nothing on here', () => {
  const kept = new Kept();
  kept.setItem('lanecall.sound', 'on');
  const { load, loads } = player();
  expect([statusOf(openOwnSound(kept, true, load)), loads()]).toEqual(['off', 0]);
});

test('what cannot be loaded is said, and the next press tries again', async () => {
  const { load, loads, fail } = player();
  fail(true);
  const sound = openOwnSound(new Kept(), true, load);
  await sound.toggle();
  expect(statusOf(sound)).toBe('failed');
  fail(false);
  await sound.toggle();
  expect([statusOf(sound), loads()]).toEqual(['running', 2]);
});

test('works where the browser keeps nothing, or refuses to', async () => {
  const full = {
    getItem: () => null,
    setItem: () => {
      throw new Error('full');
    },
  };
  for (const memory of [null, full]) {
    const sound = openOwnSound(memory, true, player().load);
    await sound.toggle();
    expect(statusOf(sound)).toBe('running');
  }
});

test('a browser that cannot play loads nothing, whatever is pressed or kept', async () => {
  const kept = new Kept();
  kept.setItem('lanecall.sound.wall', 'on');
  const { load, loads } = player();
  const sound = openOwnSound(kept, false, load);
  await sound.toggle();
  expect([statusOf(sound), loads()]).toEqual(['missing', 0]);
});

test('its player is at hand once it is loaded, and what that gives way to another screen is shown', async () => {
  const { load, made } = player();
  const sound = openOwnSound(new Kept(), true, load);
  expect(sound.player()).toBeNull();
  await sound.toggle();
  expect(sound.player()).toBe(made());
  made()!.store.setState({ status: 'off', yielded: true });
  expect(sound.store.getState()).toEqual({ status: 'off', yielded: true });
  await sound.toggle();
  expect(sound.store.getState()).toEqual({ status: 'running', yielded: false });
});
