/*
 * The sentence after a wish under Screens, for as long as it is news.
 */

import { useEffect, useState } from 'react';

/** In ms: as long as a sentence after a command stands. */
const SAID_FOR = 20_000;

/** What was said last, empty once it is old; and how to say something. */
export function useSaid(): readonly [said: string, say: (sentence: string) => void] {
  const [said, say] = useState('');
  useEffect(() => {
    if (said === '') return undefined;
    const timer = setTimeout(() => say(''), SAID_FOR);
    return () => clearTimeout(timer);
  }, [said]);
  return [said, say];
}
