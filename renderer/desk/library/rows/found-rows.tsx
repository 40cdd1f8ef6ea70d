/*
 * The rows of the sessions found: those in sight at once, the others a few at a time behind the keys. A row is drawn anew only
 * where it has changed.
 */

import { memo, startTransition, useEffect, useState, type ReactElement } from 'react';
import { useStore } from 'zustand';
import type { LibraryEntry } from '../../../link/requests/library.ts';
import type { Sessions } from '../use-sessions.ts';
import { rowId } from './entry-row.tsx';
import { SessionRow } from './session-row.tsx';
import styles from '../sessions-panel.module.css';

interface FoundRowsProps {
  readonly sessions: Sessions;
  /** The file that is in the editor; null for none. */
  readonly current: string | null;
  /** The row whose actions are shown, by its id. */
  readonly expanded: string | null;
  onExpand(id: string | null): void;
}

/** How many rows come at once: about as many as a window shows, and few enough that no key waits for them. */
const AT_ONCE = 12;

const NONE: readonly LibraryEntry[] = [];

export const FoundRows = memo(function FoundRows(props: FoundRowsProps): ReactElement {
  const { sessions, current, expanded, onExpand } = props;
  const found = useStore(sessions.looked, (looked) => looked.found);
  const entries = found?.sessions ?? NONE;
  const count = useGrowing(entries.length, found?.words ?? null);
  return (
    <ul className={styles.list} aria-label="Sessions found">
      {entries.slice(0, count).map((entry) => (
        <SessionRow
          key={entry.name}
          {...{ sessions, entry, onExpand }}
          isOpen={entry.name === current}
          isExpanded={expanded === rowId('session', entry.name)}
        />
      ))}
    </ul>
  );
});

/** How many rows there are by now. Other words begin anew; what comes to the same words takes no row away. */
function useGrowing(all: number, words: string | null): number {
  const [grown, setGrown] = useState({ words, count: AT_ONCE });
  const count = grown.words === words ? grown.count : AT_ONCE;
  useEffect(() => {
    if (words === null || count === Infinity) return;
    const next = count + AT_ONCE;
    const grow = (): void => startTransition(() => setGrown({ words, count: next < all ? next : Infinity }));
    if (count > AT_ONCE) return grow();
    // The first are painted before.
    const frame = requestAnimationFrame(grow);
    return () => cancelAnimationFrame(frame);
  }, [count, all, words]);
  return count;
}
