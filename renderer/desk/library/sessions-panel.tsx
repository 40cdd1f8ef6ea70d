/*
 * The library: sessions found by name, day and words, the last used first; what new ones begin from; parts and sets that
 * are kept; and the bin.
 */

import { useState, type FormEvent, type KeyboardEvent, type ReactElement, type RefObject } from 'react';
import { Button } from '../../ui/parts/button.tsx';
import { FileButton } from '../../ui/parts/file-button.tsx';
import { momentText } from './rows/entry-facts.ts';
import { isNarrow } from './keys/use-sessions-toggle.ts';
import { PieceRow } from './rows/piece-row.tsx';
import { SAMPLES } from './first-steps/samples.ts';
import { SessionRow } from './rows/session-row.tsx';
import type { Sessions } from './use-sessions.ts';
import fieldStyles from '../panel/field.module.css';
import styles from './sessions-panel.module.css';

interface SessionsPanelProps {
  readonly sessions: Sessions;
  /** The file that is in the editor; null for none. */
  readonly current: string | null;
  readonly field: RefObject<HTMLInputElement | null>;
  onFile(file: File | undefined): void;
  /** The lines to keep for another session. */
  onKeep(): void;
  onRefused(why: string): void;
  onClose(): void;
}

type Shelf = 'samples' | 'bin';

export function SessionsPanel(props: SessionsPanelProps): ReactElement {
  const { sessions, current, field, onFile, onKeep, onRefused, onClose } = props;
  const [shelf, setShelf] = useState<Shelf | null>(null);
  // The row whose actions are shown.
  const [expanded, setExpanded] = useState<string | null>(null);
  const { found, words, find } = sessions;
  // Kept here too: what comes from outside may be drawn a little later.
  const [typed, setTyped] = useState(words);
  const toggle = (which: Shelf): void => {
    setShelf(shelf === which ? null : which);
    if (which === 'bin') void sessions.lookIntoBin();
  };
  const openFirst = (event: FormEvent): void => {
    event.preventDefault();
    const [first] = found?.sessions ?? [];
    if (first) void sessions.open(first.name);
  };
  const leave = ({ key, nativeEvent }: KeyboardEvent): void => {
    if (key === 'Escape' && !nativeEvent.isComposing) onClose();
  };
  const rowProps = (id: string) => ({
    isExpanded: expanded === id,
    onExpand: (is: boolean) => setExpanded(is ? id : null),
  });
  return (
    <section className={styles.panel} aria-label="Sessions" onKeyDown={leave}>
      <div className={styles.title}>
        <h2>Sessions</h2>
        <Button
          name="Close: Sessions"
          label={isNarrow() ? 'Back to the session' : 'Close'}
          hint="Esc"
          look="small"
          onPress={onClose}
        />
      </div>
      <form className={styles.find} role="search" onSubmit={openFirst}>
        <label className={fieldStyles.field}>
          Find by name, day or words
          <input
            type="search"
            value={typed}
            onChange={({ target }) => {
              setTyped(target.value);
              find(target.value);
            }}
            ref={field}
          />
        </label>
      </form>
      <div className={styles.buttons}>
        <Button name="New session" label="New" look="small" onPress={() => sessions.begin('', null)} />
        <FileButton name="Open a session" label="Open a file…" accept=".txt,.lanecall,text/plain" onFile={onFile} />
        <Button name="Samples" look="small" expanded={shelf === 'samples'} onPress={() => toggle('samples')} />
        <Button name="Bin" look="small" expanded={shelf === 'bin'} onPress={() => toggle('bin')} />
      </div>
      {shelf === 'samples' ? <SampleList sessions={sessions} /> : null}
      {shelf === 'bin' ? <BinList sessions={sessions} /> : null}
      <ul className={styles.list} aria-label="Sessions found">
        {found?.sessions.map((entry) => (
          <SessionRow
            key={entry.name}
            {...{ sessions, entry, onRefused }}
            isOpen={entry.name === current}
            {...rowProps(`session ${entry.name}`)}
          />
        ))}
      </ul>
      <p className={styles.quiet} role="status">
        {listNews(sessions)}
      </p>
      <div className={styles.title}>
        <h3>Kept parts and sets</h3>
      </div>
      <Button
        name="Keep this part"
        hint="or the lines that you have chosen"
        look="small"
        className={styles.keep}
        onPress={onKeep}
      />
      <ul className={styles.list} aria-label="Kept parts and sets">
        {found?.pieces.map((entry) => (
          <PieceRow key={entry.name} {...{ sessions, entry }} {...rowProps(`piece ${entry.name}`)} />
        ))}
      </ul>
      {found && found.pieces.length === 0 && words === '' ? (
        <p className={styles.quiet}>
          None yet. Put the cursor into a part that you will use again and keep it: then a tap puts it into any session.
        </p>
      ) : null}
    </section>
  );
}

function listNews({ found, words }: Sessions): string {
  if (!found) return 'Looking…';
  if (found.sessions.length > 0) return found.more > 0 ? `${found.more} more: write another word to find them.` : '';
  return words.trim() === ''
    ? 'No session yet. What you type is saved here by itself. Begin a new one, or take a sample.'
    : 'No session has all these words: write fewer, or the day, as in “Tue” or “3 Dec”.';
}

function SampleList({ sessions }: { readonly sessions: Sessions }): ReactElement {
  return (
    <ul className={styles.list} aria-label="Samples">
      {SAMPLES.map(({ name, about, text }) => (
        <li key={name} className={styles.row}>
          <Button className={styles.open} onPress={() => sessions.begin(text, name)}>
            <b>Start from {name}</b> <span>{about}</span>
          </Button>
        </li>
      ))}
    </ul>
  );
}

function BinList({ sessions }: { readonly sessions: Sessions }): ReactElement | null {
  const { binned } = sessions;
  if (!binned) return null;
  if (binned.length === 0) {
    return <p className={styles.quiet}>The bin is empty. What is moved here can be put back for 30 days.</p>;
  }
  return (
    <ul className={styles.list} aria-label="In the bin">
      {binned.map((entry) => (
        <li key={entry.id} className={styles.row}>
          <Button className={styles.open} onPress={() => void sessions.putBack(entry)}>
            <b>Put back {entry.name}</b> <span>since {momentText(entry.discardedAt)}</span>
          </Button>
        </li>
      ))}
    </ul>
  );
}
