/*
 * A finger on a button in a small DOM: the events that a browser makes of a tap, which a bare click leaves out.
 */

import { fireEvent } from '@testing-library/react';

/** As large as a fingertip: screen readers send pointers without a size. */
const POINTER = { pointerId: 1, pointerType: 'touch', width: 20, height: 20, button: 0 };

export function touch(button: HTMLElement): void {
  fireEvent.pointerDown(button, POINTER);
}

/** Without the click that it may end in. */
export function lift(button: HTMLElement): void {
  fireEvent.pointerUp(button, POINTER);
}

/** clicks: as the browser counts them in one place, 2 for the second of a double tap. */
export function tap(button: HTMLElement, clicks = 1): void {
  touch(button);
  lift(button);
  fireEvent.click(button, { detail: clicks });
}
