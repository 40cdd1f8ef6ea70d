/*
 * What stands in the menu, and what a click on it does.
 */

import type Electron from 'electron';
import { describe, expect, test, vi } from 'vitest';
import { menuTemplate, type MenuState } from '../../app/desktop/menu.ts';
import { laptop, tv } from '../support/desktop/some-displays.ts';

describe('[menu]', () => {
  const state: MenuState = {
    displays: [laptop, tv],
    wish: { shown: true, look: 'full screen', display: null },
    place: { look: 'full screen', display: tv },
    platform: 'linux',
  };

  test('has the wall screen: show, full screen or window, and every display', () => {
    const said: unknown[] = [];
    const template = menuTemplate(state, () => ({
      showCoach: vi.fn(),
      show: (shown) => void said.push(shown),
      look: (look) => void said.push(look),
      moveTo: ({ id }) => void said.push(id),
    }));
    const wall = template.find(({ label }) => label === 'Wall screen')!
      .submenu as Electron.MenuItemConstructorOptions[];
    const moves = wall.find(({ label }) => label === 'Move to')!.submenu as Electron.MenuItemConstructorOptions[];
    expect(moves.map(({ label, checked }) => [label, checked])).toEqual([
      ['Built-in (1280 × 800)', false],
      ['Pool TV (1920 × 1080)', true],
    ]);
    for (const item of [...wall, ...moves]) item.click?.({} as never, undefined, {} as never);
    expect(said).toEqual([false, 'full screen', 'window', 1, 2]);
  });

  const rolesOn = (platform: NodeJS.Platform): string =>
    JSON.stringify(
      menuTemplate({ ...state, platform }, () => ({
        showCoach: vi.fn(),
        show: vi.fn(),
        look: vi.fn(),
        moveTo: vi.fn(),
      })),
    );

  test.each(['linux', 'win32', 'darwin'] as const)(
    'has on %s nothing that loads a page again, opens tools, hides the wall screen or closes a window by a slip',
    (platform) => {
      expect(rolesOn(platform)).not.toMatch(/reload|toggleDevTools|viewMenu|windowMenu|appMenu|hide|minimize|close/i);
      expect(rolesOn(platform)).toContain('"role":"quit"');
    },
  );

  test("has on macOS the windows, and the coach's by name", () => {
    const showCoach = vi.fn();
    const actions = { showCoach, show: vi.fn(), look: vi.fn(), moveTo: vi.fn() };
    const template = menuTemplate({ ...state, platform: 'darwin' }, () => actions);
    const window = template.find(({ role }) => role === 'window')!.submenu as Electron.MenuItemConstructorOptions[];
    window[0]!.click?.({} as never, undefined, {} as never);
    expect([window[0]!.label, showCoach.mock.calls.length]).toEqual(["Coach's window", 1]);
  });

  const wallOf = (change: Partial<MenuState>) => {
    const actions = { showCoach: vi.fn(), show: vi.fn(), look: vi.fn(), moveTo: vi.fn() };
    const template = menuTemplate({ ...state, ...change }, () => actions);
    const items = template.find(({ label }) => label === 'Wall screen')!
      .submenu as Electron.MenuItemConstructorOptions[];
    const displays = items[5]!.submenu as Electron.MenuItemConstructorOptions[];
    return { actions, items, displays };
  };

  test.each(['linux', 'win32'] as const)('on %s is Lanecall to quit, editing, and the wall screen', (platform) => {
    const template = menuTemplate({ ...state, platform }, vi.fn());
    const wall = { label: 'Wall screen', submenu: expect.any(Array) };
    expect(template).toEqual([{ label: 'Lanecall', submenu: [{ role: 'quit' }] }, { role: 'editMenu' }, wall]);
  });

  test('on macOS has About and the windows besides', () => {
    const template = menuTemplate({ ...state, platform: 'darwin' }, vi.fn());
    const coach = { label: "Coach's window", click: expect.any(Function) };
    expect(template).toEqual([
      { label: 'Lanecall', submenu: [{ role: 'about' }, { type: 'separator' }, { role: 'quit' }] },
      { role: 'editMenu' },
      { label: 'Wall screen', submenu: expect.any(Array) },
      { label: 'Window', role: 'window', submenu: [coach, { type: 'separator' }, { role: 'front' }] },
    ]);
  });

  test('the wall screen has its items in order, marked as it is wanted', () => {
    const wanted = (shown: boolean, look: 'full screen' | 'window') =>
      wallOf({ wish: { shown, look, display: null } }).items.map(({ label, type, checked }) => [label, type, checked]);
    const line = [undefined, 'separator', undefined];
    expect(wanted(true, 'full screen')).toEqual([
      ['Show', 'checkbox', true],
      line,
      ['Full screen', 'radio', true],
      ['In a window', 'radio', false],
      line,
      ['Move to', undefined, undefined],
    ]);
    expect(wanted(false, 'window').map(([, , checked]) => checked)).toEqual([
      false,
      undefined,
      false,
      true,
      undefined,
      undefined,
    ]);
  });

  test('one that is not shown is shown by a click', () => {
    const { actions, items } = wallOf({ wish: { shown: false, look: 'window', display: null } });
    items[0]!.click?.({} as never, undefined, {} as never);
    expect(actions.show).toHaveBeenCalledWith(true);
  });

  test('in a window the display that is kept for it is marked, and none where none is', () => {
    const place = { look: 'window', bounds: tv.bounds, why: 'wanted' } as const;
    const marked = (display: MenuState['wish']['display']) =>
      wallOf({ place, wish: { ...state.wish, display } }).displays.map(({ type, checked }) => [type, checked]);
    const kept = { id: tv.id, label: tv.label, width: 1920, height: 1080 };
    expect(marked(kept)).toEqual([
      ['checkbox', false],
      ['checkbox', true],
    ]);
    expect(marked(null)).toEqual([
      ['checkbox', false],
      ['checkbox', false],
    ]);
  });

  test('a display without a name has its number', () => {
    const { displays } = wallOf({ displays: [laptop, { ...tv, label: '' }] });
    expect(displays.map(({ label }) => label)).toEqual(['Built-in (1280 × 800)', 'Display 2 (1920 × 1080)']);
  });
});
