/*
 * Below a text that is edited during a run: which lines have begun since, what another screen has changed, and what the
 * coach can do about it. Nothing that was typed is dropped by itself.
 */

import { useState, type ReactElement } from 'react';
import { Button } from '../../ui/parts/button.tsx';
import { capital, listed, spanned } from '../../../app/core/words/phrase.ts';
import type { Merged } from './edit-text.ts';
import styles from './edit-news.module.css';

interface EditNewsProps {
  /** How many lines are locked now. */
  readonly locked: number;
  /** The first locked line that was changed before it began; null for none. */
  readonly broken: number | null;
  /** The text merged with another screen's change; null if there was none. */
  readonly merged: Merged | null;
  /** What the run would forget with this text: 'the cut of "3 rounds"'. */
  readonly forgets: readonly string[];
  onPutBack(): void;
  onMerge(text: string): void;
  onGiveUp(): void;
}

export function EditNews(props: EditNewsProps): ReactElement {
  const { locked, broken, merged, forgets, onPutBack, onMerge, onGiveUp } = props;
  const begun = useBegun(locked);
  return (
    <div className={styles.whole} role="status" aria-label="What has changed meanwhile">
      {merged ? (
        <>
          <p>
            {`The session has been changed since you began: ${merged.theirs}. What you typed is kept. `}
            {merged.clash ? 'Where both changed the same line, yours is used.' : ''}
          </p>
          <div className={styles.buttons}>
            <Button
              name={merged.clash ? 'Mine, and the rest of theirs' : 'Both changes together'}
              look="small"
              onPress={() => onMerge(merged.text)}
            />
            <Button name="Theirs alone" look="small" onPress={onGiveUp} />
          </div>
        </>
      ) : broken !== null ? (
        <>
          <p>{`Line ${broken} has begun since you changed it: it is swum as it was. What you typed is kept.`}</p>
          <div className={styles.buttons}>
            <Button name={`Put line ${broken} back as it is swum`} look="small" onPress={onPutBack} />
          </div>
        </>
      ) : forgets.length > 0 ? (
        <p>{`Use from now on forgets ${listed(forgets)}: write it into the text if it is to stay.`}</p>
      ) : (
        <p>{begun ?? `${linesText(1, locked)} begun: locked. Change what comes below.`}</p>
      )}
    </div>
  );
}

/** The sentence about the lines that were locked last, while Edit is open. */
function useBegun(locked: number): string | null {
  const [known, setKnown] = useState({ locked, said: null as string | null });
  if (known.locked !== locked) {
    const said = locked > known.locked ? `${linesText(known.locked + 1, locked)} just begun: locked now.` : null;
    setKnown({ locked, said });
    return said;
  }
  return known.said;
}

function linesText(from: number, to: number): string {
  return from >= to ? `Line ${to} has` : `${capital(spanned('line', from, to))} have`;
}
