/* The coach's link, lent to the picture of a wall screen. */

import { describe, expect, test, vi } from 'vitest';
import { FIRST_SETTINGS } from '../../../app/core/screen/screen-settings.ts';
import type { Link } from '../../../renderer/link/link.ts';
import { lendLink, lentLink } from '../../../renderer/link/lent-link.ts';
import { createDeckStore } from '../../../renderer/link/store.ts';

const ROOM = { width: 1920, height: 1080 };

function coach() {
  const store = createDeckStore();
  const said = vi.fn();
  const link: Link = {
    store,
    now: () => 5,
    exactNow: () => 5.5,
    lostFor: () => null,
    command: (command) => (said(command), Promise.resolve({ ok: true, at: 0, why: null })),
    wish: (...wish) => (said(wish), Promise.resolve({ ok: true, at: null, why: null })),
    sound: said,
    room: said,
    which: said,
    close: said,
  };
  const frame = {} as Element;
  const tell = (name: string, settings = FIRST_SETTINGS): void =>
    store.setState({ wallScreens: [{ name, settings, connected: [{ search: '', room: ROOM }] }] });
  return { store, link, said, frame, tell };
}

describe('[screens] a lent link', () => {
  test('is found by the page in the frame alone', () => {
    const { link, frame } = coach();
    expect(lentLink({ frameElement: null })).toBeNull();
    expect(lentLink({ frameElement: frame })).toBeNull();
    const takeBack = lendLink(link, 'Hall', frame);
    expect(lentLink({ frameElement: frame })?.exactNow()).toBe(5.5);
    takeBack();
    expect(lentLink({ frameElement: frame })).toBeNull();
  });

  test('has the settings of the screen it is lent for, and each change', () => {
    const { link, frame, tell } = coach();
    lendLink(link, 'Hall', frame);
    const { store } = lentLink({ frameElement: frame })!;
    expect(store.getState().screen).toBeNull();
    tell('Other');
    expect(store.getState().screen).toBeNull();
    tell('Hall', { ...FIRST_SETTINGS, pushOff: 'right' });
    expect(store.getState().screen).toEqual({ name: 'Hall', settings: { ...FIRST_SETTINGS, pushOff: 'right' } });
  });

  test('knows all else that the coach knows, and the same screen stays the same', () => {
    const { link, frame, tell, store } = coach();
    tell('Hall');
    lendLink(link, 'Hall', frame);
    const lent = lentLink({ frameElement: frame })!;
    const before = lent.store.getState().screen;
    store.setState({ naming: true, status: 'live' });
    expect(lent.store.getState()).toMatchObject({ naming: true, status: 'live' });
    expect(lent.store.getState().screen).toBe(before);
  });

  test('says nothing to the host, and does not end with its page', async () => {
    const { link, frame, said } = coach();
    lendLink(link, 'Hall', frame);
    const lent = lentLink({ frameElement: frame })!;
    lent.which();
    lent.room(ROOM);
    lent.sound({ id: 'a', n: 0, status: 'running', asked: true, more: true });
    lent.close();
    expect((await lent.command({ do: 'start' })).ok).toBe(false);
    expect((await lent.wish('Hall', { forget: true })).ok).toBe(false);
    expect(said).not.toHaveBeenCalled();
  });

  test('taken back it follows no more', () => {
    const { link, frame, store } = coach();
    const takeBack = lendLink(link, 'Hall', frame);
    const lent = lentLink({ frameElement: frame })!;
    takeBack();
    store.setState({ naming: true });
    expect(lent.store.getState().naming).toBe(false);
  });
});
