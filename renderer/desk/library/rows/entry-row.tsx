/*
 * A row of the library: a tap on it does what one mostly wants, and what else can be done stands behind "…".
 */

import type { ReactElement, ReactNode } from 'react';
import type { ShelfKind } from '../../../link/requests/library.ts';
import { Button } from '../../../ui/parts/button.tsx';
import styles from '../sessions-panel.module.css';

export interface Expanding {
  readonly isExpanded: boolean;
  /** By what `rowId` says; null for none. The same function each time, or each row is drawn anew. */
  onExpand(id: string | null): void;
}

/** Of a row in both lists. */
export function rowId(kind: ShelfKind, name: string): string {
  return `${kind} ${name}`;
}

interface EntryRowProps extends Expanding {
  readonly kind: ShelfKind;
  readonly name: string;
  /** What a tap on it says that it does: the name alone, or words with it. */
  readonly deed: string;
  readonly facts: string;
  /** Whether it is in the editor. */
  readonly isOpen?: boolean;
  /** What stands behind "…". */
  readonly children: ReactNode;
  onPress(): void;
}

export function EntryRow(props: EntryRowProps): ReactElement {
  const { kind, name, deed, facts, isOpen = false, isExpanded, children, onPress, onExpand } = props;
  return (
    <li className={styles.row} aria-current={isOpen ? 'true' : undefined}>
      <div className={styles.head}>
        <Button className={styles.open} onPress={onPress}>
          <b>{deed}</b> <span>{facts}</span>
        </Button>
        <Button
          name={`More for ${name}`}
          label="…"
          look="small"
          expanded={isExpanded}
          onPress={() => onExpand(isExpanded ? null : rowId(kind, name))}
        />
      </div>
      {isExpanded ? <div className={styles.actions}>{children}</div> : null}
    </li>
  );
}
