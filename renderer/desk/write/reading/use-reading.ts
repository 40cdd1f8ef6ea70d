/*
 * What the text comes to, read beside the page so that no key waits for it. Of what is asked in quick succession only the
 * last is read, and the cuts come after the rest, because they are the longest to find.
 */

import { startTransition, useCallback, useEffect, useRef, useState } from 'react';
import type { Source } from '../../../../app/core/plan/plan.ts';
import type { LineMeaning } from '../../timetable/line-meaning.ts';
import type { WrittenFit } from '../../timetable/written-cuts.ts';
import type { WrittenOutcome } from '../../timetable/written-outcome.ts';
import { ReadingHand } from './reading-hand.ts';

export interface Read {
  readonly source: Source;
  readonly outcome: WrittenOutcome;
}

export interface Reading {
  /** null until the first text has been read. */
  readonly read: Read | null;
  /** Of a text that is older than `read` until its own is there: it says which. */
  readonly fit: WrittenFit | null;
  /** What a line of the text read last means; null where nobody swims on it. */
  explain(line: number): Promise<LineMeaning | null>;
}

/**
 * How many times as long as the reading took the cuts are waited with, and at least as long as they last took, up to so
 * many ms: what takes long would take the machine from who goes on typing.
 */
const PATIENCE = 3;
const MOST_PATIENCE = 2000;

export function useReading(text: string, lanesText: string | null): Reading {
  const [read, setRead] = useState<Read | null>(null);
  const [fit, setFit] = useState<WrittenFit | null>(null);
  const hands = useRef({ reads: new ReadingHand(), fits: new ReadingHand() });
  const wanted = useRef<Source | null>(null);
  // In ms; of cuts that were given up, how long that took.
  const cutsTook = useRef(0);
  useEffect(() => {
    const { reads, fits } = hands.current;
    return () => {
      reads.end();
      fits.end();
    };
  }, []);
  useEffect(() => {
    const { reads, fits } = hands.current;
    const source: Source = { text, lanesText };
    wanted.current = source;
    const askedAt = performance.now();
    let waiting: ReturnType<typeof setTimeout> | undefined;
    let begunAt = 0;
    const findCuts = (): void => {
      begunAt = performance.now();
      fits.ask({ do: 'fit', source }, (found) => {
        cutsTook.current = performance.now() - begunAt;
        startTransition(() => setFit(found as WrittenFit | null));
      });
    };
    const findCutsOf = (outcome: WrittenOutcome): void => {
      if (outcome.kind !== 'fits' || outcome.hour.finish === null) return setFit(null);
      const patience = Math.max(PATIENCE * (performance.now() - askedAt), Math.min(cutsTook.current, MOST_PATIENCE));
      waiting = setTimeout(findCuts, patience);
    };
    // What was asked before is read to its end, for a line may be explained by it meanwhile.
    reads.ask({ do: 'read', source }, (answer) => {
      if (wanted.current !== source) return;
      const outcome = answer as WrittenOutcome;
      startTransition(() => setRead({ source, outcome }));
      findCutsOf(outcome);
    });
    return () => {
      clearTimeout(waiting);
      if (fits.isBusy) cutsTook.current = Math.max(cutsTook.current, performance.now() - begunAt);
      fits.drop();
    };
  }, [text, lanesText]);
  const explain = useCallback(
    (line: number) =>
      new Promise<LineMeaning | null>((resolve) => {
        hands.current.reads.ask({ do: 'explain', line }, (meaning) => resolve(meaning as LineMeaning | null));
      }),
    [],
  );
  return { read, fit, explain };
}
