/* The coach's link, lent to the picture of a wall screen. */

import { describe, expect, test, vi } from 'vitest';
import { FIRST_SETTINGS } from '../../../app/core/screen/screen-settings.ts';
import type { Link } from '../../../renderer/link/link.ts';
import { lendLink, lentTo } from '../../../renderer/link/lent-link.ts';
import { createDeckStore } from '../../../renderer/link/store.ts';

const ROOM = { width: 1920, height: 1080 };

function coach() {
  const store = createDeckStore();
  const said = vi.fn();
  const link: Link = {
    store,
    now: () => 5,
    exactNow: () => 5.5,
    hostNow: () => 7,
    lostFor: () => null,
    command: (command) => (said(command), Promise.resolve({ ok: true, at: 0, why: null })),
    wish: (...wish) => (said(wish), Promise.resolve({ ok: true, at: null, why: null })),
    sound: said,
    room: said,
    share: (wish) => (said(wish), Promise.resolve({ ok: true, at: null, why: null })),
    which: said,
    touch: (touch) => (said(touch), Promise.resolve({ ok: true, at: null, why: null })),
    close: said,
  };
  const frame = {} as Element;
  const tell = (name: string, settings = FIRST_SETTINGS): void =>
    store.setState({ wallScreens: [{ name, settings, connected: [{ search: '', room: ROOM }] }] });
  return { store, link, said, frame, tell, onSight: vi.fn() };
}

describe('[screens] a lent link', () => {
  test('is found by the page in the frame alone', () => {
    const { onSight, link, frame } = coach();
    expect(lentTo({ frameElement: null })).toBeNull();
    expect(lentTo({ frameElement: frame })).toBeNull();
    const takeBack = lendLink(link, 'Hall', frame, onSight);
    expect(lentTo({ frameElement: frame })?.link.exactNow()).toBe(5.5);
    takeBack();
    expect(lentTo({ frameElement: frame })).toBeNull();
  });

  test('has the settings of the screen it is lent for, and each change', () => {
    const { onSight, link, frame, tell } = coach();
    lendLink(link, 'Hall', frame, onSight);
    const { store } = lentTo({ frameElement: frame })!.link;
    expect(store.getState().screen).toBeNull();
    tell('Other');
    expect(store.getState().screen).toBeNull();
    tell('Hall', { ...FIRST_SETTINGS, pushOff: 'right' });
    expect(store.getState().screen).toEqual({ name: 'Hall', settings: { ...FIRST_SETTINGS, pushOff: 'right' } });
  });

  test('knows all else that the coach knows, and the same screen stays the same', () => {
    const { onSight, link, frame, tell, store } = coach();
    tell('Hall');
    lendLink(link, 'Hall', frame, onSight);
    const lent = lentTo({ frameElement: frame })!.link;
    const before = lent.store.getState().screen;
    store.setState({ naming: true, status: 'live' });
    expect(lent.store.getState()).toMatchObject({ naming: true, status: 'live' });
    expect(lent.store.getState().screen).toBe(before);
  });

  test('says nothing to the host, and does not end with its page', async () => {
    const { onSight, link, frame, said } = coach();
    lendLink(link, 'Hall', frame, onSight);
    const lent = lentTo({ frameElement: frame })!.link;
    lent.which();
    lent.room(ROOM);
    lent.sound({ id: 'a', n: 0, status: 'running', asked: true, more: true });
    lent.close();
    expect((await lent.command({ do: 'start' })).ok).toBe(false);
    expect((await lent.wish('Hall', { forget: true })).ok).toBe(false);
    expect((await lent.share({ do: 'stop-sharing' })).ok).toBe(false);
    expect(said).not.toHaveBeenCalled();
  });

  test('the page tells how far its screen can be read', () => {
    const { onSight, link, frame } = coach();
    lendLink(link, 'Hall', frame, onSight);
    const sight = { least: 18, preferred: 14, worst: { name: 'lane numbers', least: 11 }, helps: [] };
    lentTo({ frameElement: frame })?.onSight(sight);
    expect(onSight.mock.calls).toEqual([[sight]]);
  });

  test('taken back it follows no more', () => {
    const { onSight, link, frame, store } = coach();
    const takeBack = lendLink(link, 'Hall', frame, onSight);
    const lent = lentTo({ frameElement: frame })!.link;
    takeBack();
    store.setState({ naming: true });
    expect(lent.store.getState().naming).toBe(false);
  });
});
