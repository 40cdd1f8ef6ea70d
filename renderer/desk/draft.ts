/*
 * The text that is being written, which this screen keeps until it is changed.
 */

import { useState } from 'react';
import { ownStorage } from '../ui/coach/own-storage.ts';

export const DRAFT = 'lanecall.draft';
export const LANES_DRAFT = 'lanecall.draft.lanes';

/** What is kept under a name, `first` where nothing is, and what changes it. */
export function useDraft(key: string, first: string): [string, (text: string) => void] {
  const [text, setText] = useState(() => ownStorage()?.getItem(key) ?? first);
  const keep = (next: string): void => {
    setText(next);
    keepDraft(key, next);
  };
  return [text, keep];
}

export function keepDraft(key: string, text: string): void {
  try {
    ownStorage()?.setItem(key, text);
  } catch {
    // A full or forbidden store keeps no draft; the text on the screen is not touched by that.
  }
}
