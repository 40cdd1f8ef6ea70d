/*
 * Which keys pressed on the wall screen go to the coach's window.
 */

import type Electron from 'electron';
import { describe, expect, test } from 'vitest';
import { keyForCoach } from '../../../app/desktop/windows/wall-keys.ts';

describe('[desktop] a key on the wall screen', () => {
  const press: Electron.Input = {
    type: 'keyDown',
    key: 'PageDown',
    code: 'PageDown',
    isAutoRepeat: false,
    isComposing: false,
    shift: false,
    control: false,
    alt: false,
    meta: false,
    location: 0,
    modifiers: [],
  };

  test("goes to the coach's window as it was pressed", () => {
    expect(keyForCoach(press)).toEqual({ key: 'PageDown', code: 'PageDown', shiftKey: false, repeat: false });
    expect(keyForCoach({ ...press, key: 'M', code: 'KeyM', shift: true, isAutoRepeat: true })).toMatchObject({
      shiftKey: true,
      repeat: true,
    });
  });

  test.each<[string, Partial<Electron.Input>]>([
    ['that is let go', { type: 'keyUp' }],
    ["with Control: the menu's", { control: true }],
    ["with Alt: the system's", { alt: true }],
    ["with Command: the menu's", { meta: true }],
    ['that writes a character with others', { isComposing: true }],
    ...['Tab', 'ArrowUp', 'ArrowDown', 'ArrowLeft', 'ArrowRight'].map((key): [string, Partial<Electron.Input>] => [
      `to get about on the page, ${key},`,
      { key },
    ]),
    ...['Shift', 'Control', 'Alt', 'Meta'].map((key): [string, Partial<Electron.Input>] => [
      `that is only held, ${key},`,
      { key },
    ]),
  ])('%s stays where it is', (_, change) => {
    expect(keyForCoach({ ...press, ...change })).toBeNull();
  });
});
