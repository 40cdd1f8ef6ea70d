/*
 * One session of the list: a tap opens it, and what else can be done with it stands behind "…".
 */

import { useState, type ReactElement } from 'react';
import type { LibraryEntry } from '../../link/library.ts';
import { Button } from '../../ui/parts/button.tsx';
import { saveText } from '../save-text.ts';
import { AnotherDay } from './another-day.tsx';
import { entryFacts } from './entry-facts.ts';
import { NameField } from './name-field.tsx';
import type { Sessions } from './use-sessions.ts';
import styles from './sessions-panel.module.css';

interface SessionRowProps {
  readonly sessions: Sessions;
  readonly entry: LibraryEntry;
  /** Whether it is in the editor. */
  readonly isOpen: boolean;
  readonly isExpanded: boolean;
  onExpand(isExpanded: boolean): void;
  onRefused(why: string): void;
}

export function SessionRow({
  sessions,
  entry,
  isOpen,
  isExpanded,
  onExpand,
  onRefused,
}: SessionRowProps): ReactElement {
  const { name } = entry;
  return (
    <li className={styles.row} aria-current={isOpen ? 'true' : undefined}>
      <div className={styles.head}>
        <Button className={styles.open} onPress={() => void sessions.open(name)}>
          <b>{name}</b> <span>{entryFacts(entry)}</span>
        </Button>
        <Button
          name={`More for ${name}`}
          label="…"
          look="small"
          expanded={isExpanded}
          onPress={() => onExpand(!isExpanded)}
        />
      </div>
      {isExpanded ? <SessionActions {...{ sessions, name, onRefused }} onDone={() => onExpand(false)} /> : null}
    </li>
  );
}

interface SessionActionsProps {
  readonly sessions: Sessions;
  readonly name: string;
  onDone(): void;
  onRefused(why: string): void;
}

function SessionActions({ sessions, name, onDone, onRefused }: SessionActionsProps): ReactElement {
  // The text that is taken for another day.
  const [moving, setMoving] = useState<string | null>(null);
  const withText = async (call: (text: string) => void): Promise<void> => {
    const read = await sessions.read('session', name);
    if (read) call(read.text);
  };
  const rename = async (to: string): Promise<boolean> => {
    const ok = await sessions.rename('session', name, to);
    if (ok) onDone();
    return ok;
  };
  return (
    <div className={styles.actions}>
      <Button
        name={`${name} for another day`}
        label="For another day…"
        look="small"
        expanded={moving !== null}
        onPress={() => (moving === null ? void withText(setMoving) : setMoving(null))}
      />
      {moving === null ? null : (
        <AnotherDay
          name={name}
          text={moving}
          onMake={(day, start) => void sessions.moveTo(name, day, start).then(onDone)}
          onRefused={onRefused}
        />
      )}
      <Button
        name={`Duplicate ${name}`}
        label="Duplicate"
        look="small"
        onPress={() => void sessions.duplicate(name).then(onDone)}
      />
      <NameField name={name} onRename={rename} />
      <Button
        name={`Save ${name} as a file`}
        label="Save as a file"
        look="small"
        onPress={() => void withText((text) => saveText(`${name}.txt`, text, 'text/plain'))}
      />
      <Button
        name={`Move ${name} to the bin`}
        label="Move to the bin"
        look="small"
        onPress={() => void sessions.discard('session', name).then(onDone)}
      />
    </div>
  );
}
