/*
 * A part or set that is kept: a tap puts it in at the cursor.
 */

import type { ReactElement } from 'react';
import type { LibraryEntry } from '../../link/library.ts';
import { Button } from '../../ui/parts/button.tsx';
import { NameField } from './name-field.tsx';
import type { Sessions } from './use-sessions.ts';
import styles from './sessions-panel.module.css';

interface PieceRowProps {
  readonly sessions: Sessions;
  readonly entry: LibraryEntry;
  readonly isExpanded: boolean;
  onExpand(isExpanded: boolean): void;
}

export function PieceRow({ sessions, entry: { name, note }, isExpanded, onExpand }: PieceRowProps): ReactElement {
  const rename = async (to: string): Promise<boolean> => {
    const ok = await sessions.rename('piece', name, to);
    if (ok) onExpand(false);
    return ok;
  };
  return (
    <li className={styles.row}>
      <div className={styles.head}>
        <Button className={styles.open} onPress={() => void sessions.insertPiece(name)}>
          <b>Put in {name}</b> <span>{note}</span>
        </Button>
        <Button
          name={`More for ${name}`}
          label="…"
          look="small"
          expanded={isExpanded}
          onPress={() => onExpand(!isExpanded)}
        />
      </div>
      {isExpanded ? (
        <div className={styles.actions}>
          <NameField name={name} onRename={rename} />
          <Button
            name={`Move ${name} to the bin`}
            label="Move to the bin"
            look="small"
            onPress={() => void sessions.discard('piece', name)}
          />
        </div>
      ) : null}
    </li>
  );
}
