/*
 * A tap on the remote is felt where the phone can: a short buzz as the finger comes down.
 */

import type { PointerEvent } from 'react';

/** In ms: felt with wet hands, and over before the finger lifts. */
const BUZZ = 20;

/** For `onPointerDownCapture` of what holds the buttons. A button that is not offered is not felt. */
export function feltTaps({ target }: PointerEvent): void {
  const button = target instanceof Element ? target.closest('[data-button]') : null;
  // Not every browser has it.
  const phone: { readonly vibrate?: (ms: number) => boolean } = navigator;
  if (button && button.getAttribute('aria-disabled') !== 'true') phone.vibrate?.(BUZZ);
}
