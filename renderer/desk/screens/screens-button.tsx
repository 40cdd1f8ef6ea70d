/*
 * Opens and closes the wall screens' panel, by a tap or its key.
 */

import { useEffect, type ReactElement } from 'react';
import { takesKeys, takesText } from '../../ui/coach/free-keyboard.ts';
import { Button } from '../../ui/parts/button.tsx';
import { useTyping } from '../actions/use-typing.ts';

export const SCREENS_KEY = 'W';

interface ScreensButtonProps {
  readonly isOpen: boolean;
  onToggle(): void;
}

export function ScreensButton({ isOpen, onToggle }: ScreensButtonProps): ReactElement {
  const typing = useTyping();
  return (
    <Button
      name="Screens"
      // What is typed goes into the text.
      hint={typing ? `Esc, then ${SCREENS_KEY}` : SCREENS_KEY}
      keys={SCREENS_KEY}
      look="is-small"
      expanded={isOpen}
      onPress={onToggle}
    />
  );
}

/** The key where no run has the keys: writing, and afterwards. Escape closes, wherever the keyboard is. */
export function useScreensKey(isOpen: boolean, onToggle: () => void): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (event.ctrlKey || event.altKey || event.metaKey || event.repeat) return;
      const at = document.activeElement;
      const isTyped = takesText(at) || (takesKeys(at) && /^(INPUT|SELECT)$/.test(at.tagName));
      const means = event.key === 'Escape' ? isOpen : event.key.toUpperCase() === SCREENS_KEY && !isTyped;
      if (!means) return;
      event.preventDefault();
      onToggle();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [isOpen, onToggle]);
}
