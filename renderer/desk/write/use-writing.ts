/*
 * The session that is being written, for the page that shows it. While the page is in sight its file is looked at, because
 * other programs may write there too.
 */

import { startTransition, useEffect, useLayoutEffect, useState } from 'react';
import type { DraftedRun } from './draft.ts';
import type { Writing, Written } from './writing.ts';

/** In ms. */
const LOOK_EVERY = 2000;

export function useWriting(writing: Writing, run: DraftedRun | null): Written {
  // Before it is drawn for the first time, so that nothing else is seen.
  useState(() => writing.showBeside(run));
  useEffect(() => {
    const look = (): void => void (document.visibilityState === 'visible' && writing.look());
    const flush = (): void => void writing.flush();
    const timer = setInterval(look, LOOK_EVERY);
    window.addEventListener('focus', look);
    window.addEventListener('pagehide', flush);
    return () => {
      clearInterval(timer);
      window.removeEventListener('focus', look);
      window.removeEventListener('pagehide', flush);
      flush();
    };
  }, [writing]);
  const [shown, setShown] = useState(writing.shown);
  useLayoutEffect(() => {
    const show = (): void => setShown(writing.shown());
    // Before this was heard of, another may have been put there.
    show();
    return writing.subscribe((isTyped) => (isTyped ? startTransition(show) : show()));
  }, [writing]);
  return shown;
}
