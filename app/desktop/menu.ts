/*
 * The program's menu: quitting, editing, and where the wall screen goes. Nothing in it reloads a page or opens
 * developer tools by accident.
 */

import type { MenuItemConstructorOptions } from 'electron';
import { find, type SomeDisplay, type WallPlace, type WallWish } from './windows/displays.ts';

export interface MenuState {
  readonly displays: readonly SomeDisplay[];
  readonly wish: WallWish;
  readonly place: WallPlace;
  readonly platform: NodeJS.Platform;
}

export interface MenuActions {
  /** Brings the coach's window to the front. */
  showCoach(): void;
  show(shown: boolean): void;
  look(look: WallWish['look']): void;
  moveTo(display: SomeDisplay): void;
}

/** actions: called when an item is clicked. */
export function menuTemplate(state: MenuState, actions: () => MenuActions): MenuItemConstructorOptions[] {
  const wall: MenuItemConstructorOptions = { label: 'Wall screen', submenu: wallItems(state, actions) };
  const editing: MenuItemConstructorOptions = { role: 'editMenu' };
  if (state.platform !== 'darwin') return [{ label: 'Lanecall', submenu: [{ role: 'quit' }] }, editing, wall];
  const coach: MenuItemConstructorOptions = { label: "Coach's window", click: () => actions().showCoach() };
  return [
    // The usual menu here has Hide in it too, which would hide the wall screen.
    { label: 'Lanecall', submenu: [{ role: 'about' }, { type: 'separator' }, { role: 'quit' }] },
    editing,
    wall,
    { label: 'Window', role: 'window', submenu: [coach, { type: 'separator' }, { role: 'front' }] },
  ];
}

function wallItems({ displays, wish, place }: MenuState, actions: () => MenuActions): MenuItemConstructorOptions[] {
  const kept = wish.display && find(displays, wish.display);
  const isOn = (display: SomeDisplay): boolean =>
    place.look === 'full screen' ? place.display.id === display.id : kept?.id === display.id;
  return [
    { label: 'Show', type: 'checkbox', checked: wish.shown, click: () => actions().show(!wish.shown) },
    { type: 'separator' },
    {
      label: 'Full screen',
      type: 'radio',
      checked: wish.look === 'full screen',
      click: () => actions().look('full screen'),
    },
    { label: 'In a window', type: 'radio', checked: wish.look === 'window', click: () => actions().look('window') },
    { type: 'separator' },
    {
      label: 'Move to',
      submenu: displays.map((display, index) => ({
        label: nameOf(display, index),
        type: 'checkbox',
        checked: isOn(display),
        click: () => actions().moveTo(display),
      })),
    },
  ];
}

/** Some systems give their displays no names. */
function nameOf({ label, bounds }: SomeDisplay, index: number): string {
  return `${label === '' ? `Display ${index + 1}` : label} (${bounds.width} × ${bounds.height})`;
}
