/*
 * F1 opens and closes the notation's reference, wherever the keyboard is.
 */

import { useEffect, useRef } from 'react';

export const NOTATION_KEY = 'F1';

export function useNotationKey(toggle: () => void): void {
  const latest = useRef(toggle);
  useEffect(() => {
    latest.current = toggle;
  });
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (event.key !== NOTATION_KEY || event.ctrlKey || event.altKey || event.metaKey || event.shiftKey) return;
      // The browser has a help of its own.
      event.preventDefault();
      if (!event.repeat) latest.current();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
}
