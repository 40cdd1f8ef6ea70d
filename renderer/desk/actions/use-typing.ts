/*
 * Whether the coach is typing into a text now: then keys give no commands.
 */

import { useSyncExternalStore } from 'react';
import { takesText } from '../../ui/coach/free-keyboard.ts';

export function useTyping(): boolean {
  return useSyncExternalStore(followFocus, isTyping);
}

function isTyping(): boolean {
  return takesText(document.activeElement);
}

function followFocus(call: () => void): () => void {
  document.addEventListener('focusin', call);
  document.addEventListener('focusout', call);
  return () => {
    document.removeEventListener('focusin', call);
    document.removeEventListener('focusout', call);
  };
}
