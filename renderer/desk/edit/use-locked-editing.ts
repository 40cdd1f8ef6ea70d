/*
 * A text area whose first lines are locked. A change to them is taken back, and the cursor stays where it was.
 */

import { useEffect, useRef, type RefObject } from 'react';

interface LockedEditing {
  accepts(text: string): boolean;
  onText(text: string): void;
  /** Called when a change to locked lines was taken back. */
  onRefused(): void;
}

/** Returns the handler for each new text of the area. */
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
    // Before the change, because the cursor goes back there.
    own.addEventListener('beforeinput', remember);
    return () => own.removeEventListener('beforeinput', remember);
  }, [area]);
  return (text) => {
    if (accepts(text)) return onText(text);
    onRefused();
    const { start, end } = selected.current;
    // React writes the old text back first, and that moves the cursor to its end.
    requestAnimationFrame(() => area.current?.setSelectionRange(start, end));
  };
}
