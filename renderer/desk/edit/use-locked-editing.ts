/*
 * A text area of which the first lines may not be changed: a change of those is taken back, and the cursor stays
 * where it was.
 */

import { useEffect, useRef, type RefObject } from 'react';

interface LockedEditing {
  accepts(text: string): boolean;
  onText(text: string): void;
  /** A change of locked lines was taken back. */
  onRefused(): void;
}

/** What to do with a text that the area has now. */
export function useLockedEditing(
  area: RefObject<HTMLTextAreaElement | null>,
  { accepts, onText, onRefused }: LockedEditing,
): (text: string) => void {
  const selected = useRef({ start: 0, end: 0 });
  useEffect(() => {
    const own = area.current;
    if (!own) return undefined;
    const remember = (): void => {
      selected.current = { start: own.selectionStart, end: own.selectionEnd };
    };
    // Before a change and not after it: that is where the cursor goes back to.
    own.addEventListener('beforeinput', remember);
    return () => own.removeEventListener('beforeinput', remember);
  }, [area]);
  return (text) => {
    if (accepts(text)) return onText(text);
    onRefused();
    const { start, end } = selected.current;
    // The old text is written back first, which puts the cursor at its end.
    requestAnimationFrame(() => area.current?.setSelectionRange(start, end));
  };
}
