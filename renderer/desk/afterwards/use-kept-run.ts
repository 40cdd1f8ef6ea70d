/*
 * A run as the host keeps it, and what the coach adds to it.
 */

import { useEffect, useRef, useState, useSyncExternalStore } from 'react';
import { NOTHING_ADDED } from '../../../app/core/record/afterwards.ts';
import type { AskRecords, RecordsGiven } from '../../link/requests/records.ts';
import { Adding, type Added } from './added/adding.ts';

export interface KeptRunState {
  /** null until the host has answered. */
  readonly given: RecordsGiven['review'] | null;
  /** null where nothing can be added: not yet, or because its file is not to be written over. */
  readonly adding: Adding | null;
  readonly added: Added;
  /** Why it cannot be read; null where it can. */
  readonly refused: string | null;
}

interface Read {
  readonly run: string;
  readonly given: RecordsGiven['review'] | null;
  readonly adding: Adding | null;
  readonly refused: string | null;
}

const NONE: Added = { added: NOTHING_ADDED, isSaved: true, refused: null };

/** `progress`: another text as the run goes on, so that it is read again; what was added to it stays. */
export function useKeptRun(ask: AskRecords, run: string, onSaved?: () => void, progress = ''): KeptRunState {
  const [read, setRead] = useState<Read | null>(null);
  // Another function must not have the run read anew.
  const latest = useRef(onSaved);
  useEffect(() => {
    latest.current = onSaved;
  });
  useEffect(() => {
    let wanted = true;
    let adding: Adding | null = null;
    void ask<'review'>({ do: 'review', run }).then((answer) => {
      if (!wanted) return;
      if (!answer.ok) return setRead({ run, given: null, adding: null, refused: answer.why });
      if (answer.mayAdd) adding = new Adding({ ask, run, after, onSaved: () => latest.current?.() }, answer);
      setRead({ run, given: answer, adding, refused: null });
    });
    const flush = (): void => void adding?.flush();
    window.addEventListener('pagehide', flush);
    return () => {
      wanted = false;
      window.removeEventListener('pagehide', flush);
      flush();
    };
  }, [ask, run]);
  const reached = useRef(progress);
  useEffect(() => {
    if (reached.current === progress) return;
    reached.current = progress;
    let wanted = true;
    void ask<'review'>({ do: 'review', run }).then((answer) => {
      if (wanted && answer.ok) setRead((before) => before && { ...before, given: answer });
    });
    return () => void (wanted = false);
  }, [ask, run, progress]);
  const now = read?.run === run ? read : null;
  const adding = now?.adding ?? null;
  const added = useSyncExternalStore(
    (call) => adding?.subscribe(call) ?? (() => undefined),
    () => adding?.state() ?? NONE,
  );
  return { given: now?.given ?? null, adding, added, refused: now?.refused ?? null };
}

function after(call: () => void, ms: number): () => void {
  const timer = setTimeout(call, ms);
  return () => clearTimeout(timer);
}
