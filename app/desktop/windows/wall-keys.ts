/*
 * Passes keys from the wall screen on to the coach's window. A clicker is a keyboard, so its keys go to whichever
 * window has the focus. They are taken from the system (`before-input-event`), never from the wall's page, which may
 * not command.
 */

import type { Input } from 'electron';
import type { PressedKey } from '../../wire/window-bridge.ts';

/** Keys that move around on the page itself. */
const OF_THE_PAGE = ['Tab', 'ArrowUp', 'ArrowDown', 'ArrowLeft', 'ArrowRight', 'Shift', 'Control', 'Alt', 'Meta'];

/** The key to pass on; null for one that stays in its window, as the keys of the system and of the menu do. */
export function keyForCoach(input: Input): PressedKey | null {
  const { type, key, code, shift, isAutoRepeat } = input;
  if (type !== 'keyDown' || input.control || input.alt || input.meta || input.isComposing) return null;
  return OF_THE_PAGE.includes(key) ? null : { key, code, shiftKey: shift, repeat: isAutoRepeat };
}
