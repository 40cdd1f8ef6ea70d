/*
 * Deleting a swimmer's name wherever it stands, runs that were never started, or everything.
 */

import { useCallback, useEffect, useState, type ReactElement } from 'react';
import { count, listed } from '../../../app/core/words/phrase.ts';
import type { RecordsAnswer, RecordsGiven } from '../../link/requests/records.ts';
import type { DeskTools } from '../desk-tools.ts';
import { DeleteOnce } from './delete-once.tsx';
import { dayOf } from './run-list.tsx';
import styles from './history-room.module.css';

interface DeletingProps {
  readonly tools: Pick<DeskTools, 'askRecords' | 'writing'>;
  /** What is kept is another than before. */
  onDeleted(): void;
  onRefused(why: string): void;
}

export function Deleting({ tools, onDeleted, onRefused }: DeletingProps): ReactElement {
  const { askRecords: ask, writing } = tools;
  const [name, setName] = useState('');
  const [done, setDone] = useState<readonly string[]>([]);
  const hear = (answer: RecordsAnswer<'delete-name'>, what: string): void => {
    setDone(answer.ok ? [deletedText(answer, what), ...answer.left] : []);
    if (!answer.ok) onRefused(answer.why);
    onDeleted();
  };
  const deleteName = async (): Promise<void> => {
    const wanted = name.trim();
    await writing.flush();
    hear(await ask<'delete-name'>({ do: 'delete-name', name: wanted }), wanted);
    setName('');
    await writing.look();
  };
  const [neverStarted, setNeverStarted] = useState<RecordsGiven['never-started']['runs']>([]);
  const lookForNeverStarted = useCallback(
    () =>
      ask<'never-started'>({ do: 'never-started' }).then((answer) => {
        if (answer.ok) setNeverStarted(answer.runs);
      }),
    [ask],
  );
  useEffect(() => void lookForNeverStarted(), [lookForNeverStarted]);
  const deleteNeverStarted = async (only: string | null, what: string): Promise<void> => {
    hear(await ask<'delete-never-started'>({ do: 'delete-never-started', only }), what);
    await lookForNeverStarted();
  };
  const deleteEverything = async (): Promise<void> => {
    await writing.flush();
    const answer = await ask<'delete-everything'>({ do: 'delete-everything' });
    if (answer.ok) writing.forgetAll();
    hear(answer, 'Everything');
  };
  return (
    <div className={styles.deleting}>
      <section aria-label="Delete a name">
        <h2>A swimmer’s name</h2>
        <p>
          Deletes a name from every run, session, kept part and squad in the data folder, the bin included. In a lane’s
          line “one” takes its place, elsewhere “somebody”. Distances and times stay.
        </p>
        <label className={styles.field}>
          The name, as it is written
          <input value={name} maxLength={100} autoComplete="off" onChange={({ target }) => setName(target.value)} />
        </label>
        <DeleteOnce
          key={name}
          name="Delete this name everywhere"
          what={`${name.trim()} goes from everything kept here, and cannot be brought back.`}
          why={name.trim() === '' ? 'Write the name first.' : null}
          onDelete={() => void deleteName()}
          onRefused={onRefused}
        />
      </section>
      <section aria-label="Delete what was never started">
        <h2>Runs that were never started</h2>
        <p>A session that you opened to run leaves its text in the data folder, even if nobody pressed Start.</p>
        <DeleteOnce
          name="Delete what was never started"
          what="They go for good. The session in the editor, and one that is open now, stay."
          onDelete={() => void deleteNeverStarted(null, 'What was never started')}
          onRefused={onRefused}
        />
        <ul className={styles.neverStarted} aria-label="Never started">
          {neverStarted.map(({ name: only, title, openedAt }) => (
            <li key={only}>
              <DeleteOnce
                name={`Delete ${title}, opened ${dayOf({ openedAt })}`}
                what={`${title} goes for good.`}
                onDelete={() => void deleteNeverStarted(only, title)}
                onRefused={onRefused}
              />
            </li>
          ))}
        </ul>
      </section>
      <section aria-label="Delete everything">
        <h2>Everything</h2>
        <p>
          Deletes all runs with what was added to them, all sessions, kept parts and squads, the bin, and what this
          window remembers of them. Settings of screens stay.
        </p>
        <DeleteOnce
          name="Delete everything"
          what="All runs, sessions and squads go, and cannot be brought back."
          onDelete={() => void deleteEverything()}
          onRefused={onRefused}
        />
      </section>
      <div role="status">
        {done.map((text) => (
          <p key={text}>{text}</p>
        ))}
      </div>
    </div>
  );
}

function deletedText(given: { readonly runs: number; readonly texts: number }, what: string): string {
  const { runs, texts } = given;
  if (runs === 0 && texts === 0) return `${what}: it was found nowhere.`;
  const changed = [runs > 0 ? count(runs, 'run') : '', texts > 0 ? count(texts, 'session') : ''];
  return `${what} is gone, from ${listed(changed.filter((text) => text !== ''))}.`;
}
