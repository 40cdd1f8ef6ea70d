/*
 * A text once its typing has paused: what is read of it, and all that is drawn from that, waits until then, so that no
 * key waits for it.
 */

import { startTransition, useEffect, useState } from 'react';

/** Longer than from key to key while one types, and short enough to be an answer, in ms. */
const PAUSE = 250;

export function useSettled(text: string): string {
  const [settled, setSettled] = useState(text);
  useEffect(() => {
    if (text === settled) return undefined;
    const timer = setTimeout(() => startTransition(() => setSettled(text)), PAUSE);
    return () => clearTimeout(timer);
  }, [text, settled]);
  return settled;
}
