/*
 * What is pasted where no text field has the keyboard is a session of its own; so is a pasted file, anywhere.
 */

import { useEffect, useRef } from 'react';
import { takesText } from '../../../ui/coach/free-keyboard.ts';

export function usePasting(onText: (text: string) => void, onFile: (file: File) => void): void {
  const latest = useRef({ onText, onFile });
  useEffect(() => {
    latest.current = { onText, onFile };
  });
  useEffect(() => {
    const onPaste = (event: ClipboardEvent): void => {
      const file = event.clipboardData?.files[0];
      const text = event.clipboardData?.getData('text/plain') ?? '';
      if (file) {
        event.preventDefault();
        latest.current.onFile(file);
      } else if (text.trim() !== '' && !takesText(document.activeElement)) {
        event.preventDefault();
        latest.current.onText(text);
      }
    };
    window.addEventListener('paste', onPaste);
    return () => window.removeEventListener('paste', onPaste);
  }, []);
}
