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
});
