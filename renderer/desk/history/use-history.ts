/*
 * The runs that are kept, found by words and days. The host works some of them out anew now and then, and says how many
 * are to come: it is then asked again until all are there, and now and then while a run is not ended.
 */

import { useCallback, useEffect, useRef, useState } from 'react';
import type { AskRecords, RecordsGiven } from '../../link/requests/records.ts';

export interface Wanted {
  readonly find: string;
  /** "2026-11-26"; null for no such end. */
  readonly from: string | null;
  readonly to: string | null;
}

export const EVERY_RUN: Wanted = { find: '', from: null, to: null };

export interface History {
  readonly wanted: Wanted;
  /** null until the host has answered. */
  readonly found: RecordsGiven['list'] | null;
  /** Why it could not be read; null where it could. */
  readonly refused: string | null;
  find(wanted: Wanted): void;
  again(): void;
}

/** In ms: a run that is not ended goes on meanwhile. */
export const LOOK_EVERY = 3000;

/** As many as a list may have: what is drawn is drawn of all. */
const MOST = 10_000;

export function useHistory(ask: AskRecords): History {
  const [state, setState] = useState<Pick<History, 'wanted' | 'found' | 'refused'>>({
    wanted: EVERY_RUN,
    found: null,
    refused: null,
  });
  const wanted = useRef(EVERY_RUN);
  const asked = useRef(0);
  const look = useCallback(async (): Promise<void> => {
    const n = ++asked.current;
    for (;;) {
      const answer = await ask<'list'>({ do: 'list', ...wanted.current, most: MOST });
      // Only the answer to the last question counts.
      if (n !== asked.current) return;
      setState((before) =>
        answer.ok
          ? { wanted: before.wanted, found: answer, refused: null }
          : { wanted: before.wanted, found: before.found, refused: answer.why },
      );
      if (!answer.ok || answer.toCome === 0) return;
    }
  }, [ask]);
  useEffect(() => {
    void look();
    const counter = asked;
    return () => void counter.current++;
  }, [look]);
  const find = useCallback(
    (next: Wanted) => {
      wanted.current = next;
      setState((before) => ({ ...before, wanted: next }));
      void look();
    },
    [look],
  );
  const again = useCallback(() => void look(), [look]);
  const { found } = state;
  useEffect(() => {
    if (!found?.runs.some(({ ended }) => ended === 'going')) return;
    const timer = setTimeout(again, LOOK_EVERY);
    return () => clearTimeout(timer);
  }, [found, again]);
  return { ...state, find, again };
}
