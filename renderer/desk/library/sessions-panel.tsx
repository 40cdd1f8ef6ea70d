/*
 * The library: sessions found by name, day and words, the last used first; what new ones begin from; parts and sets that
 * are kept; and the bin.
 */

import { useState, type FormEvent, type KeyboardEvent, type ReactElement, type RefObject } from 'react';
import { useStore } from 'zustand';
import { Button } from '../../ui/parts/button.tsx';
import { FileButton } from '../../ui/parts/file-button.tsx';
import { momentText } from './rows/entry-facts.ts';
import { rowId } from './rows/entry-row.tsx';
import { FoundRows } from './rows/found-rows.tsx';
import { isNarrow } from './keys/use-sessions-toggle.ts';
import { PieceRow } from './rows/piece-row.tsx';
import { SAMPLES } from './first-steps/samples.ts';
import type { Looked, Sessions } from './use-sessions.ts';
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
  onClose(): void;
}

type Shelf = 'samples' | 'bin';

export function SessionsPanel(props: SessionsPanelProps): ReactElement {
  const { sessions, current, field, onFile, onKeep, onClose } = props;
  const [shelf, setShelf] = useState<Shelf | null>(null);
  // The row whose actions are shown, by its id.
  const [expanded, setExpanded] = useState<string | null>(null);
  const toggle = (which: Shelf): void => {
    setShelf(shelf === which ? null : which);
    if (which === 'bin') void sessions.lookIntoBin();
  };
  const leave = ({ key, nativeEvent }: KeyboardEvent): void => {
    if (key === 'Escape' && !nativeEvent.isComposing) onClose();
  };
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
      <FindField {...{ sessions, field }} />
      <div className={styles.buttons}>
        <Button name="New session" label="New" look="small" onPress={() => sessions.begin('', null)} />
        <FileButton name="Open a session" label="Open a file…" accept=".txt,.lanecall,text/plain" onFile={onFile} />
        <Button name="Samples" look="small" expanded={shelf === 'samples'} onPress={() => toggle('samples')} />
        <Button name="Bin" look="small" expanded={shelf === 'bin'} onPress={() => toggle('bin')} />
      </div>
      {shelf === 'samples' ? <SampleList sessions={sessions} /> : null}
      {shelf === 'bin' ? <BinList sessions={sessions} /> : null}
      <FoundRows {...{ sessions, current, expanded }} onExpand={setExpanded} />
      <FoundNews sessions={sessions} />
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
      <PieceRows {...{ sessions, expanded }} onExpand={setExpanded} />
    </section>
  );
}

type FindFieldProps = Pick<SessionsPanelProps, 'sessions' | 'field'>;

function FindField({ sessions, field }: FindFieldProps): ReactElement {
  const words = useStore(sessions.looked, (looked) => looked.words);
  const openFirst = (event: FormEvent): void => {
    event.preventDefault();
    const [first] = sessions.looked.getState().found?.sessions ?? [];
    if (first) void sessions.open(first.name);
  };
  return (
    <form className={styles.find} role="search" onSubmit={openFirst}>
      <label className={fieldStyles.field}>
        Find by name, day or words
        <input type="search" value={words} onChange={({ target }) => sessions.find(target.value)} ref={field} />
      </label>
    </form>
  );
}

function FoundNews({ sessions }: { readonly sessions: Sessions }): ReactElement {
  const news = useStore(sessions.looked, listNews);
  return (
    <p className={styles.quiet} role="status">
      {news}
    </p>
  );
}

function listNews({ found, words }: Looked): string {
  if (!found) return 'Looking…';
  if (found.sessions.length > 0) return found.more > 0 ? `${found.more} more: write another word to find them.` : '';
  return words.trim() === ''
    ? 'No session yet. What you type is saved here by itself. Begin a new one, or take a sample.'
    : 'No session has all these words: write fewer, or the day, as in “Tue” or “3 Dec”.';
}

interface PieceRowsProps {
  readonly sessions: Sessions;
  readonly expanded: string | null;
  onExpand(id: string | null): void;
}

function PieceRows({ sessions, expanded, onExpand }: PieceRowsProps): ReactElement {
  const pieces = useStore(sessions.looked, ({ found }) => found?.pieces);
  const words = useStore(sessions.looked, (looked) => looked.words);
  return (
    <>
      <ul className={styles.list} aria-label="Kept parts and sets">
        {pieces?.map((entry) => (
          <PieceRow
            key={entry.name}
            {...{ sessions, entry, onExpand }}
            isExpanded={expanded === rowId('piece', entry.name)}
          />
        ))}
      </ul>
      {pieces?.length === 0 && words === '' ? (
        <p className={styles.quiet}>
          None yet. Put the cursor into a part that you will use again and keep it: then a tap puts it into any session.
        </p>
      ) : null}
    </>
  );
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
  const binned = useStore(sessions.looked, (looked) => looked.binned);
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
