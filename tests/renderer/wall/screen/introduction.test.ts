/* How a wall screen introduces itself, and what it keeps of the name it is given. */

import { afterEach, describe, expect, test, vi } from 'vitest';
import { FIRST_SETTINGS } from '../../../../app/core/screen/screen-settings.ts';
import type { Link } from '../../../../renderer/link/link.ts';
import { createDeckStore } from '../../../../renderer/link/store.ts';
import { createIntroduction, type Page } from '../../../../renderer/wall/screen/introduction.ts';

afterEach(() => {
  vi.useRealTimers();
});

interface Kept {
  readonly kept?: string | null;
  /** What the window has kept, from before it was loaded again. */
  readonly own?: string | null;
  readonly isOwnWindow?: boolean;
  readonly full?: boolean;
}

function storageWith(kept: string | null, full: boolean) {
  const memory = new Map(kept === null ? [] : [['lanecall.screen', kept]]);
  const storage = {
    getItem: (key: string) => memory.get(key) ?? null,
    setItem(key: string, value: string) {
      if (full) throw new Error('QuotaExceededError');
      memory.set(key, value);
    },
  };
  return { memory, storage };
}

function wall(search = '', { kept = null, own: ofWindow = null, isOwnWindow = false, full = false }: Kept = {}) {
  const { memory, storage } = storageWith(kept, full);
  const window = storageWith(ofWindow, full);
  const memories = { browser: storage, window: window.storage };
  const resized: (() => void)[] = [];
  const page = { innerWidth: 1920, innerHeight: 1080, location: { search } };
  const addEventListener = (_: string, call: () => void): void => void resized.push(call);
  const own = createIntroduction({ ...page, addEventListener } as unknown as Page, isOwnWindow, memories);
  const store = createDeckStore();
  const room = vi.fn();
  own.follow({ store, room } as unknown as Link);
  const called = (name: string): void => store.setState({ screen: { name, settings: FIRST_SETTINGS } });
  return { own, memory, window: window.memory, called, room, resize: () => resized.forEach((call) => call()) };
}

describe('[screens] a wall screen', () => {
  test('says the name in its address before any other', () => {
    expect(wall('?name=Deep%20end', { kept: 'Screen 1' }).own.introduce().name).toBe('Deep end');
  });

  test('names those that its browser keeps: one that another window has is not for it', () => {
    const { name, known } = wall('', { kept: 'Screen 1\nDeep end' }).own.introduce();
    expect([name, known]).toEqual([null, ['Screen 1', 'Deep end']]);
    expect(wall('').own.introduce()).toMatchObject({ name: null, known: [] });
    expect(wall('?name=', { kept: 'a'.repeat(50) }).own.introduce()).toMatchObject({ name: null, known: [] });
  });

  test('loaded again says the name that it had', () => {
    expect(wall('', { kept: 'Screen 1', own: 'Deep end' }).own.introduce().name).toBe('Deep end');
  });

  test("keeps the names of its browser's other windows, and a former one of its own no longer", () => {
    const { memory, window, called } = wall('', { kept: 'Screen 1\nDeep end' });
    called('Screen 3');
    called('Hall');
    expect([memory.get('lanecall.screen'), window.get('lanecall.screen')]).toEqual([
      'Hall\nScreen 1\nDeep end',
      'Hall',
    ]);
  });

  test("of the desktop program's own window is called Wall", () => {
    const { own, memory, called } = wall('', { kept: 'Screen 1', isOwnWindow: true });
    expect(own.introduce().name).toBe('Wall');
    called('Scoreboard');
    expect([own.introduce().name, memory.get('lanecall.screen')]).toEqual(['Wall', 'Screen 1']);
  });

  test('keeps the name that it is given, and every later one', () => {
    const { own, memory, called } = wall();
    called('Screen 1');
    called('Shallow end');
    expect([own.introduce().name, memory.get('lanecall.screen')]).toEqual(['Shallow end', 'Shallow end']);
  });

  test('keeps nothing of a name in its address: another page of this browser is another screen', () => {
    const { memory, called } = wall('?name=Hall');
    called('Hall');
    expect(memory.size).toBe(0);
  });

  test('without room to keep it goes by that name as long as the page lives', () => {
    const { own, called } = wall('', { full: true });
    called('Screen 3');
    expect(own.introduce().name).toBe('Screen 3');
  });

  test('says its size and what its address asks for, unless that is endless', () => {
    expect(wall('?flip').own.introduce()).toMatchObject({ search: '?flip', room: { width: 1920, height: 1080 } });
    expect(wall(`?x=${'a'.repeat(600)}`).own.introduce().search).toBe('');
  });

  test('says another size once, when it has settled', () => {
    vi.useFakeTimers();
    const { resize, room } = wall();
    for (let n = 0; n < 30; n++) {
      resize();
      vi.advanceTimersByTime(16);
    }
    expect(room).not.toHaveBeenCalled();
    vi.advanceTimersByTime(500);
    expect(room.mock.calls).toEqual([[{ width: 1920, height: 1080 }]]);
  });
});
