/*
 * Ctrl+Z and Ctrl+Shift+Z take a change of the text back, and make it again, also where the keyboard is not in the text:
 * after a tap on another session it is nowhere.
 */

import { useEffect, useRef } from 'react';
import { takesText } from '../../../ui/coach/free-keyboard.ts';

export function useUndoKeys(undo: () => void, redo: () => void): void {
  const latest = useRef({ undo, redo });
  useEffect(() => {
    latest.current = { undo, redo };
  });
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || takesText(document.activeElement)) return;
      const key = event.key.toLowerCase();
      if (key !== 'z' && key !== 'y') return;
      event.preventDefault();
      if (key === 'y' || event.shiftKey) latest.current.redo();
      else latest.current.undo();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
}
