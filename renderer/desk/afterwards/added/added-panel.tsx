/*
 * What the coach adds to a run: who was there, how hard it was, words to marks, and notes. It is saved by itself.
 */

import { useState, type ReactElement } from 'react';
import type { Afterwards } from '../../../../app/core/record/afterwards.ts';
import type { ReviewDeed, ReviewJson } from '../../../../app/core/record/tables/review-json.ts';
import { lanesNamed } from '../../../../app/core/words/lanes.ts';
import { commaed } from '../../../../app/core/words/phrase.ts';
import { clockTime } from '../../../../app/core/words/time/time-of-day.ts';
import { Button } from '../../../ui/parts/button.tsx';
import { withEffort, withMarkWords, withNotes, type Adding } from './adding.ts';
import { Attendance } from './attendance.tsx';
import fieldStyles from '../../panel/field.module.css';
import styles from './added-panel.module.css';

interface AddedPanelProps {
  readonly review: ReviewJson;
  /** null where nothing can be added. */
  readonly adding: Adding | null;
  readonly added: Afterwards;
  /** Why something is not kept; null where all is. */
  readonly trouble: string | null;
  onRefused(why: string): void;
}

/** The words of the scale of ten (CR-10); some numbers have none. Source: J Sports Sci Med 2006;5:289, Table 1. */
const EFFORTS: readonly string[] = [
  'rest',
  'very, very easy',
  'easy',
  'moderate',
  'somewhat hard',
  'hard',
  '',
  'very hard',
  '',
  '',
  'maximal',
];

export function AddedPanel({ review, adding, added, trouble, onRefused }: AddedPanelProps): ReactElement {
  const why = adding === null ? 'Nothing can be added to this run.' : null;
  const { effort } = added;
  return (
    <>
      {trouble === null ? null : <p className={styles.trouble}>{trouble}</p>}
      <Attendance lanes={review.record.lanes} there={added.attendance} change={adding} onRefused={onRefused} />
      <fieldset className={styles.group}>
        <legend>How hard it was</legend>
        <div className={styles.efforts}>
          {EFFORTS.map((words, value) => (
            <Button
              key={value}
              name={commaed(`Effort ${value}`, words)}
              label={`${value}`}
              look="small"
              pressed={effort === value}
              why={why}
              onPress={() => adding?.change(withEffort(effort === value ? null : value))}
              onRefused={onRefused}
            />
          ))}
        </div>
        <p className={styles.quiet}>
          {effort === null
            ? '0 is rest, 10 is maximal. Ask half an hour after the session.'
            : commaed(`${effort} of 10`, EFFORTS[effort] ?? '')}
        </p>
      </fieldset>
      <Notes key={adding === null ? 'none' : 'notes'} adding={adding} notes={added.notes} />
      <section className={styles.group} aria-label="What happened">
        <h2>What happened</h2>
        <ol className={styles.deeds}>
          {review.happened.map((deed) => (
            <Deed key={`${deed.command} ${deed.atMs}`} {...{ deed, review, adding, added }} />
          ))}
        </ol>
      </section>
    </>
  );
}

interface DeedProps {
  readonly deed: ReviewDeed;
  readonly review: ReviewJson;
  readonly adding: Adding | null;
  readonly added: Afterwards;
}

function Deed({ deed, review, adding, added }: DeedProps): ReactElement {
  const { command, atMs, isMark, undone, lanes, words } = deed;
  const at = clockTime(review.openedAtTimeOfDayMs + atMs);
  if (!isMark || command === null) {
    return (
      <li data-undone={undone ? '' : undefined}>
        <b>{at}</b> <span>{undone ? `Undone: ${words}` : words}</span>
      </li>
    );
  }
  const more = added.marks.find((mark) => mark.command === command)?.words ?? '';
  const named = commaed(words === '' ? 'a mark' : words, lanes.length > 0 ? lanesNamed(lanes) : '');
  return (
    <li>
      <b>{at}</b>{' '}
      <span>
        {named}
        <input
          className={`${fieldStyles.input} ${styles.words}`}
          aria-label={`Words to the mark at ${at}: ${named}`}
          placeholder="more about it"
          value={more}
          maxLength={200}
          disabled={adding === null}
          onChange={({ target }) => adding?.change(withMarkWords(command, target.value))}
        />
      </span>
    </li>
  );
}

interface NotesProps {
  readonly adding: Adding | null;
  readonly notes: readonly string[];
}

/** One text for the coach; what an empty line divides is kept as notes of their own. */
function Notes({ adding, notes }: NotesProps): ReactElement {
  const [typed, setTyped] = useState(() => notes.join('\n\n'));
  const own = notesIn(typed);
  const isOwn = own.length === notes.length && own.every((note, index) => note === notes[index]);
  const write = (text: string): void => {
    setTyped(text);
    adding?.change(withNotes(notes, notesIn(text)));
  };
  return (
    <label className={styles.notes}>
      Notes, for next week
      <textarea
        className={fieldStyles.input}
        value={isOwn ? typed : notes.join('\n\n')}
        rows={4}
        maxLength={2000}
        disabled={adding === null}
        onChange={({ target }) => write(target.value)}
      />
    </label>
  );
}

function notesIn(text: string): readonly string[] {
  return text
    .split(/\n{2,}/)
    .map((note) => note.trim())
    .filter((note) => note !== '');
}
