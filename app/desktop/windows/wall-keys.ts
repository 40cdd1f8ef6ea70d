/*
 * A clicker is a keyboard, and goes to whichever window has the focus: keys pressed on the wall screen mean in the
 * coach's window what they mean there. They come from the system (`before-input-event`), never from the wall's page.
 */

import type { Input } from 'electron';
import type { PressedKey } from '../../wire/window-bridge.ts';

/** By them one gets about on the page itself. */
const OF_THE_PAGE = ['Tab', 'ArrowUp', 'ArrowDown', 'ArrowLeft', 'ArrowRight', 'Shift', 'Control', 'Alt', 'Meta'];

/** What is handed on; null for what stays where it was pressed. Keys of the system and the menu stay too. */
export function keyForCoach(input: Input): PressedKey | null {
  const { type, key, code, shift, isAutoRepeat } = input;
  if (type !== 'keyDown' || input.control || input.alt || input.meta || input.isComposing) return null;
  return OF_THE_PAGE.includes(key) ? null : { key, code, shiftKey: shift, repeat: isAutoRepeat };
}
