/*
 * Whether the library is open beside the text: on a wide window at first, then as the coach left it there. Where it takes
 * the place of what the text comes to, it opens only when asked for, and gives way to what was chosen. Ctrl+O opens it
 * from anywhere, to type what is looked for.
 */

import { useEffect, useRef, useState, type RefObject } from 'react';
import { ownStorage } from '../../../ui/coach/own-storage.ts';

export const SESSIONS_KEY = 'Control+O';

const KEPT = 'lanecall.sessions';

export interface SessionsToggle {
  readonly isOpen: boolean;
  /** Where one types what is looked for. It takes the keyboard when the library is opened by its key. */
  readonly field: RefObject<HTMLInputElement | null>;
  toggle(): void;
  /** A session was opened: where the list hides what it comes to, it gives way. */
  leaveRoom(): void;
}

export function useSessionsToggle(): SessionsToggle {
  const [{ isOpen, asked }, setState] = useState(() => ({ isOpen: isOpenAtFirst(), asked: 0 }));
  const field = useRef<HTMLInputElement>(null);
  const set = (next: boolean): void => {
    if (!isNarrow()) keep(next);
    setState((state) => ({ ...state, isOpen: next }));
  };
  // Here, and not in the panel, which is drawn after the keys: letters typed at once are for the field.
  useEffect(() => {
    if (asked === 0) return;
    field.current?.focus();
    field.current?.select();
  }, [asked]);
  useEffect(() => {
    const wide = window.matchMedia(WIDE);
    const onWidth = (): void => setState((state) => ({ ...state, isOpen: isOpenAtFirst() }));
    wide.addEventListener('change', onWidth);
    return () => wide.removeEventListener('change', onWidth);
  }, []);
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || event.key.toLowerCase() !== 'o') return;
      event.preventDefault();
      if (!isNarrow()) keep(true);
      setState((state) => ({ isOpen: true, asked: state.asked + 1 }));
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
  return {
    isOpen,
    field,
    toggle: () => set(!isOpen),
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
