/*
 * Whether the coach uses the window by touch just now: what opens then brings up no on-screen keyboard.
 */

import { useEffect, useRef, type RefObject } from 'react';

/** True from a tap by finger or pen to the next key or press of the mouse. */
export function useTouched(): RefObject<boolean> {
  const touched = useRef(false);
  useEffect(() => {
    const onPointer = ({ pointerType }: PointerEvent): void => {
      touched.current = pointerType === 'touch' || pointerType === 'pen';
    };
    const onKey = (): void => {
      touched.current = false;
    };
    window.addEventListener('pointerdown', onPointer, true);
    window.addEventListener('keydown', onKey, true);
    return () => {
      window.removeEventListener('pointerdown', onPointer, true);
      window.removeEventListener('keydown', onKey, true);
    };
  }, []);
  return touched;
}
