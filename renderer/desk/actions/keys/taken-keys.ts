/*
 * Which keys go to what has the keyboard now, and so give no commands.
 */

import { useSyncExternalStore } from 'react';
import { takesKeys, takesText } from '../../../ui/coach/free-keyboard.ts';

/** press: Space and Enter alone, which press a button or follow a link. */
export type TakenKeys = 'none' | 'press' | 'all';

/** A text takes all keys, and so does a select, slider or checkbox reached by Tab. */
export function keysTakenBy(element: Element | null): TakenKeys {
  if (takesText(element)) return 'all';
  if (!takesKeys(element)) return 'none';
  return /^(INPUT|SELECT)$/.test(element.tagName) ? 'all' : 'press';
}

export function useTakenKeys(): TakenKeys {
  return useSyncExternalStore(followFocus, keysTakenNow);
}

function keysTakenNow(): TakenKeys {
  return keysTakenBy(document.activeElement);
}

function followFocus(call: () => void): () => void {
  document.addEventListener('focusin', call);
  document.addEventListener('focusout', call);
  return () => {
    document.removeEventListener('focusin', call);
    document.removeEventListener('focusout', call);
  };
}
