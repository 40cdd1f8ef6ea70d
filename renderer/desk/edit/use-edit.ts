/*
 * What the coach has typed into the text of a run, kept on this screen until it is used or given up: leaving Edit,
 * loading the page again or another screen's change lose none of it.
 */

import { useRef, useState } from 'react';
import { ownStorage } from '../../ui/coach/own-storage.ts';
import type { Edited } from './edit-text.ts';

interface Kept {
  readonly run: string;
  /** null where nothing is typed that is not in force. */
  readonly edited: Edited | null;
  /** What was typed before and is not in force any more: used and undone, or given up. */
  readonly before: string | null;
}

const EDIT = 'lanecall.edit';

export interface Edit {
  /** What was typed, with the text that it was made from. */
  readonly edited: Edited | null;
  /** An earlier text that can be brought back; null for none. */
  readonly before: string | null;
  type(text: string): void;
  /** What is typed is made from another text from now on. */
  remake(base: string, text: string): void;
  /** Another text in place of what is typed, made from the one in force; what was typed can be brought back. */
  swap(text: string): void;
  /** A text is in force now. Whether nothing else was typed meanwhile; else that goes on, made from this text. */
  used(text: string): boolean;
  /** Given up for the text in force: it can be brought back. */
  close(): void;
}

/** Of a run, by its id, whose text in force is `inForce`. */
export function useEdit(run: string, inForce: string): Edit {
  const [kept, setKept] = useState<Kept>(() => keptEdit(run));
  // For what is called later than the render that it comes from.
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
    // A full or forbidden store keeps nothing; the text on the screen is not touched by that.
  }
}
