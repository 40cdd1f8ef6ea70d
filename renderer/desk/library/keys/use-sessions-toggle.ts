/*
 * Whether the library is open beside the text: on a wide window at first, then as the coach left it there. Where it takes
 * the place of what the text comes to, it opens only when asked for, and gives way to what was chosen. Ctrl+O opens it
 * from anywhere, to type what is looked for.
 */

import { useEffect, useState } from 'react';
import { ownStorage } from '../../../ui/coach/own-storage.ts';

export const SESSIONS_KEY = 'Control+O';

const KEPT = 'lanecall.sessions';

export interface SessionsToggle {
  readonly isOpen: boolean;
  /** How often it was asked for by its key: its field then takes the keyboard. */
  readonly asked: number;
  toggle(): void;
  /** A session was opened: where the list hides what it comes to, it gives way. */
  leaveRoom(): void;
}

export function useSessionsToggle(): SessionsToggle {
  const [state, setState] = useState(() => ({ isOpen: isOpenAtFirst(), asked: 0 }));
  const set = (isOpen: boolean): void => {
    if (!isNarrow()) keep(isOpen);
    setState(({ asked }) => ({ isOpen, asked }));
  };
  useEffect(() => {
    const wide = window.matchMedia(WIDE);
    const onWidth = (): void => setState(({ asked }) => ({ isOpen: isOpenAtFirst(), asked }));
    wide.addEventListener('change', onWidth);
    return () => wide.removeEventListener('change', onWidth);
  }, []);
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || event.key.toLowerCase() !== 'o') return;
      event.preventDefault();
      if (!isNarrow()) keep(true);
      setState(({ asked }) => ({ isOpen: true, asked: asked + 1 }));
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
  return {
    ...state,
    toggle: () => set(!state.isOpen),
    leaveRoom: () => (isNarrow() ? set(false) : undefined),
  };
}

/** Whether the library takes the place of what the text comes to. */
export function isNarrow(): boolean {
  return !window.matchMedia(WIDE).matches;
}

/** Beyond `--narrow` in `ui/widths.css` there is room for a column beside the text. */
const WIDE = '(min-width: 1181px)';

function isOpenAtFirst(): boolean {
  return !isNarrow() && (ownStorage()?.getItem(KEPT) ?? 'open') === 'open';
}

function keep(isOpen: boolean): void {
  try {
    ownStorage()?.setItem(KEPT, isOpen ? 'open' : 'closed');
  } catch {
    // Not kept: it opens as on the first day.
  }
}
