/*
 * Keeps what the coach has typed into the text of a run until it is used or given up. Leaving Edit, loading the page
 * again or a change from another screen loses none of it.
 */

import { useRef, useState } from 'react';
import { ownStorage } from '../../ui/coach/own-storage.ts';
import type { Edited } from './edit-text.ts';

interface Kept {
  readonly run: string;
  /** null if nothing was typed that is not in force. */
  readonly edited: Edited | null;
  /** An earlier text that is not in force: used and undone since, or given up. */
  readonly before: string | null;
}

const EDIT = 'lanecall.edit';

export interface Edit {
  /** What was typed, with the text that it was made from. */
  readonly edited: Edited | null;
  /** An earlier text that can be brought back; null for none. */
  readonly before: string | null;
  type(text: string): void;
  /** Takes a merged text, which counts as made from the text `base`. */
  remake(base: string, text: string): void;
  /** Replaces what was typed; that can be brought back. */
  swap(text: string): void;
  /** Notes that a text is in force now. Returns whether nothing more was typed meanwhile; if so, that is kept. */
  used(text: string): boolean;
  /** Gives up what was typed; it can be brought back. */
  close(): void;
}

/** `run` is the id of the run, `inForce` its text now. */
export function useEdit(run: string, inForce: string): Edit {
  const [kept, setKept] = useState<Kept>(() => keptEdit(run));
  // For calls that come later than the render they were made in.
  const latest = useRef(kept);
  const keep = (edited: Edited | null, before: string | null): void => {
    const next = { run, edited, before };
    latest.current = next;
    setKept(next);
    keepEdit(next);
  };
  const edited = kept.edited !== null && kept.edited.text !== inForce ? kept.edited : null;
  const base = edited?.base ?? inForce;
  return {
    edited,
    before: kept.before === inForce || kept.before === edited?.text ? null : kept.before,
    type: (text) => keep(text === inForce ? null : { base, text }, kept.before),
    remake: (from, text) => keep(text === from ? null : { base: from, text }, kept.before),
    swap: (text) => keep(text === inForce ? null : { base: inForce, text }, edited?.text ?? kept.before),
    used(text) {
      const now = latest.current.edited?.text ?? text;
      keep(now === text ? null : { base: text, text: now }, text);
      return now === text;
    },
    close: () => keep(null, kept.edited ? kept.edited.text : kept.before),
  };
}

function keptEdit(run: string): Kept {
  const none: Kept = { run, edited: null, before: null };
  try {
    const kept = JSON.parse(ownStorage()?.getItem(EDIT) ?? 'null') as Partial<Kept> | null;
    if (kept?.run !== run) return none;
    const { edited, before } = kept;
    const isEdited = typeof edited?.base === 'string' && typeof edited.text === 'string';
    return { run, edited: isEdited ? edited : null, before: typeof before === 'string' ? before : null };
  } catch {
    return none;
  }
}

function keepEdit(kept: Kept): void {
  try {
    ownStorage()?.setItem(EDIT, JSON.stringify(kept));
  } catch {
    // A full or forbidden storage keeps nothing. The text on the screen is still there.
  }
}
