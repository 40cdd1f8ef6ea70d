/*
 * Another window of the coach on this machine: while it shares, an address lets one in that works once.
 */

import { useState, type ReactElement } from 'react';
import { hostAddress } from '../../link/connection/own-window.ts';
import type { Link } from '../../link/link.ts';
import { Button } from '../../ui/parts/button.tsx';
import { useDeck } from '../../ui/coach/use-deck.ts';
import type { Want } from './want.ts';
import styles from './sharing.module.css';

interface AnotherWindowProps {
  readonly link: Link;
  readonly onWant: Want;
}

/** Not in the desktop program, which has its windows. */
export function AnotherWindow({ link, onWant }: AnotherWindowProps): ReactElement | null {
  const claim = useDeck(link, (state) => state.claim);
  // It is used, or of an earlier look at this panel.
  const [spent, spend] = useState(claim);
  if (hostAddress() === null) return null;
  return (
    <div className={styles.row}>
      <Button
        name="Another window on this machine"
        look="small"
        onPress={() => void onWant({ do: 'another-window' })}
      />
      {claim === null || claim === spent ? null : (
        // A window of its own: it gets nothing of this one's key.
        <a
          className={styles.claim}
          href={claim}
          target="_blank"
          rel="noopener noreferrer"
          onClick={() => spend(claim)}
          onAuxClick={({ button }) => (button === 1 ? spend(claim) : undefined)}
        >
          Open it (works once)
        </a>
      )}
    </div>
  );
}
