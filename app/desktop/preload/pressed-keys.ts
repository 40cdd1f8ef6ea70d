/*
 * Presses on the coach's page a key that was pressed on the wall screen. A preload script shares its page's document,
 * so the page hears it.
 */

import type { PressedKey } from '../../wire/window-bridge.ts';

/** The part of a page that is used here; the desktop program is compiled without a page's types. */
export interface KeyedPage {
  readonly document: { readonly activeElement: { blur?(): void } | null };
  readonly KeyboardEvent: new (type: string, init: PressedKey & { readonly bubbles: boolean }) => object;
  dispatchEvent(event: object): boolean;
}

export function pressOn(page: KeyedPage, key: PressedKey): void {
  // The key was not meant for the field that somebody last typed in here, so that field lets go of the keyboard.
  page.document.activeElement?.blur?.();
  page.dispatchEvent(new page.KeyboardEvent('keydown', { ...key, bubbles: true }));
}
