/*
 * A key that was pressed on the wall screen, pressed on the coach's page: the document is one for both of its worlds.
 */

import type { PressedKey } from '../../wire/window-bridge.ts';

/** As much of a page as is needed; the desktop program is compiled without one. */
export interface KeyedPage {
  readonly document: { readonly activeElement: { blur?(): void } | null };
  readonly KeyboardEvent: new (type: string, init: PressedKey & { readonly bubbles: boolean }) => object;
  dispatchEvent(event: object): boolean;
}

export function pressOn(page: KeyedPage, key: PressedKey): void {
  // Whoever presses a key on the wall screen does not type here: what had the keyboard last must not take it for its own.
  page.document.activeElement?.blur?.();
  page.dispatchEvent(new page.KeyboardEvent('keydown', { ...key, bubbles: true }));
}
