/*
 * E in Edit: the keyboard back to the text, after Escape has taken it away. In the text itself it is a letter.
 */

import { useEffect, useRef } from 'react';
import { takesText } from '../../ui/coach/free-keyboard.ts';

export function useTextKey(giveKeyboard: () => void): void {
  const latest = useRef(giveKeyboard);
  useEffect(() => {
    latest.current = giveKeyboard;
  });
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const isModified = event.ctrlKey || event.metaKey || event.altKey;
      if (event.key.toLowerCase() !== 'e' || isModified || event.repeat || takesText(document.activeElement)) return;
      event.preventDefault();
      latest.current();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
}
