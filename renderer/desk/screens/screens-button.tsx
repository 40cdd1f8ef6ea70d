/*
 * Opens and closes the wall screens' panel, by a tap or its key.
 */

import { useCallback, useEffect, useState, type ReactElement } from 'react';
import { Button } from '../../ui/parts/button.tsx';
import { keysTakenBy, useTakenKeys } from '../actions/keys/taken-keys.ts';

const SCREENS_KEY = 'W';

interface ScreensButtonProps {
  readonly isOpen: boolean;
  onToggle(): void;
}

export function ScreensButton({ isOpen, onToggle }: ScreensButtonProps): ReactElement {
  const taken = useTakenKeys();
  return (
    <Button
      name="Screens"
      hint={taken === 'all' ? `Esc, then ${SCREENS_KEY}` : SCREENS_KEY}
      keys={SCREENS_KEY}
      look="small"
      expanded={isOpen}
      onPress={onToggle}
    />
  );
}

/** Whether the panel is open where no run has the keys: writing, and afterwards. Escape closes it, except from a field. */
export function useScreensToggle(): readonly [isOpen: boolean, toggle: () => void] {
  const [isOpen, setIsOpen] = useState(false);
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (event.ctrlKey || event.altKey || event.metaKey || event.repeat) return;
      const isTaken = keysTakenBy(document.activeElement) === 'all';
      // In a field it gives back the keyboard: that is enough for one press.
      const isWritten = event.target instanceof Element && keysTakenBy(event.target) === 'all';
      if (event.key === 'Escape') return isWritten || event.defaultPrevented ? undefined : setIsOpen(false);
      if (event.key.toUpperCase() === SCREENS_KEY && !isTaken) setIsOpen((before) => !before);
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
  return [isOpen, useCallback(() => setIsOpen((before) => !before), [])];
}
