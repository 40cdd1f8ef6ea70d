/*
 * What was added to a run and what happened in it, as text: for the page that is printed.
 */

import type { ReactElement } from 'react';
import type { Afterwards } from '../../../../app/core/record/afterwards.ts';
import type { ReviewJson } from '../../../../app/core/record/tables/review-json.ts';
import { lanesNamed } from '../../../../app/core/words/lanes.ts';
import { markText } from '../../../../app/core/record/mark-text.ts';
import { commaed } from '../../../../app/core/words/phrase.ts';
import { clockTime } from '../../../../app/core/words/time/time-of-day.ts';
import { Caution } from '../../paper/caution.tsx';
import { thereWords } from './added-words.ts';
import styles from '../record-view.module.css';

interface AddedTextProps {
  readonly review: ReviewJson;
  readonly added: Afterwards;
}

export function AddedText({ review, added }: AddedTextProps): ReactElement {
  const { attendance, effort, notes, marks } = added;
  return (
    <div className={styles.onPaper}>
      {attendance === null ? null : (
        <>
          <h2>Who was there</h2>
          <p>{attendance.map((there) => `lane ${there.lane}: ${thereWords(there)}`).join('; ')}</p>
        </>
      )}
      {effort === null ? null : <p>Effort {effort} of 10.</p>}
      {notes.length === 0 ? null : <h2>Notes</h2>}
      {notes.map((note) => (
        <p key={note}>{note}</p>
      ))}
      <h2>What happened</h2>
      <ul className={styles.happened}>
        {review.happened.map(({ command, atMs, isMark, undone, lanes, words }) => {
          const more = marks.find((mark) => mark.command === command)?.words ?? '';
          const said = isMark
            ? commaed(markText(words, more) || 'a mark', lanes.length > 0 ? lanesNamed(lanes) : '')
            : words;
          return (
            <li key={`${command} ${atMs}`}>
              {clockTime(review.openedAtTimeOfDayMs + atMs)} {undone ? `Undone: ${said}` : said}
            </li>
          );
        })}
      </ul>
      <Caution />
    </div>
  );
}
