/* Full screen as each system has it: only macOS knows the simple one. */

import type { BrowserWindow } from 'electron';
import { expect, test } from 'vitest';
import { isFull, leaveBeforeClosing, setFull } from '../../../app/desktop/windows/full-screen.ts';

/** A window with one kind of full screen, and without the calls of the other, as on a system that has none. */
function windowWith(kind: 'FullScreen' | 'SimpleFullScreen', full: boolean) {
  const asked: boolean[] = [];
  const window = { [`is${kind}`]: () => full, [`set${kind}`]: (on: boolean) => void asked.push(on) };
  return { window: window as unknown as BrowserWindow, asked };
}

test.each(['linux', 'win32'] as const)(
  '[desktop] on %s it is the usual one, and nothing is left before closing',
  (platform) => {
    const { window, asked } = windowWith('FullScreen', true);
    expect(isFull(window, platform)).toBe(true);
    setFull(window, false, platform);
    leaveBeforeClosing(window, platform);
    expect(asked).toEqual([false]);
  },
);

test('[desktop] on macOS it is the simple one, which is left before closing, where it is there', () => {
  const { window, asked } = windowWith('SimpleFullScreen', true);
  expect(isFull(window, 'darwin')).toBe(true);
  setFull(window, true, 'darwin');
  leaveBeforeClosing(window, 'darwin');
  expect(asked).toEqual([true, false]);
  const other = windowWith('SimpleFullScreen', false);
  leaveBeforeClosing(other.window, 'darwin');
  expect(other.asked).toEqual([]);
});
