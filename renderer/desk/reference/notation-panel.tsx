/*
 * How each kind of line is written, beside the text: an example that is pressed is put in.
 */

import { useRef, useState, type ReactElement } from 'react';
import { Button } from '../../ui/parts/button.tsx';
import { WrittenLines } from '../editor/lines/written-lines.tsx';
import { SidePanel } from '../panel/panel.tsx';
import { findEntries, notationGroups, type NotationEntry } from './notation-lines.ts';
import fieldStyles from '../panel/field.module.css';
import styles from './notation-panel.module.css';

interface NotationPanelProps {
  /** The numbers of the session's lanes. */
  readonly lanes: readonly number[];
  onPut(example: string): void;
  onClose(): void;
}

export function NotationPanel({ lanes, onPut, onClose }: NotationPanelProps): ReactElement {
  const [words, setWords] = useState('');
  const field = useRef<HTMLInputElement>(null);
  const found = findEntries(notationGroups(lanes), words);
  return (
    <SidePanel title="Notation" first={field} onClose={onClose}>
      <label className={fieldStyles.field}>
        Find, such as rest or lanes
        <input type="search" value={words} onChange={({ target }) => setWords(target.value)} ref={field} />
      </label>
      <p className={styles.quiet}>
        Times are 1:30, :45, 1:12.5, 1:05:00, 1&apos;30&quot;, 2 min, or seconds up to 99. Press an example to put it
        into your text.
      </p>
      {found.map(({ title, entries }) => (
        <section key={title} className={styles.group} aria-label={title}>
          <h3>{title}</h3>
          <ul>
            {entries.map((entry) => (
              <Entry key={entry.means} entry={entry} onPut={onPut} />
            ))}
          </ul>
        </section>
      ))}
      <p className={styles.quiet} role="status">
        {found.length === 0 ? 'Nothing has all these words: write fewer, such as rest, lanes or rounds.' : ''}
      </p>
    </SidePanel>
  );
}

interface EntryProps {
  readonly entry: NotationEntry;
  onPut(example: string): void;
}

function Entry({ entry: { examples, means }, onPut }: EntryProps): ReactElement {
  return (
    <li className={styles.entry}>
      {examples.map((example) => (
        <Button key={example} className={styles.example} onPress={() => onPut(example)}>
          <span className="hidden">Put in </span>
          <WrittenLines text={example} />
        </Button>
      ))}
      <p>{means}</p>
    </li>
  );
}
