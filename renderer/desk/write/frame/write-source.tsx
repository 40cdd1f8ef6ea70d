/*
 * Which session is in the editor: its name, whether it is saved, and whether it is what runs.
 */

import type { ReactElement } from 'react';
import type { DeckRun } from '../../../link/store.ts';
import { Button } from '../../../ui/parts/button.tsx';
import { clockTime } from '../../../../app/core/words/time/time-of-day.ts';
import { MINUTE } from '../../../../app/core/units.ts';
import { draftOf, type Draft } from '../draft.ts';
import { EXAMPLE } from '../example.ts';
import type { Saving } from '../file/session-saver.ts';
import { newNameOf } from '../file/session-title.ts';
import type { Writing, Written } from '../writing.ts';
import styles from '../write-screen.module.css';

interface WriteSourceProps {
  readonly run: DeckRun | null;
  readonly writing: Writing;
  readonly written: Written;
}

export function WriteSource({ run, writing, written: { draft, saving } }: WriteSourceProps): ReactElement {
  const open = run ? draftOf(run) : null;
  const isOpen = open !== null && open.text === draft.text && open.lanesText === draft.lanesText;
  return (
    <>
      <h1 className={styles.name}>{saving.file?.name ?? nameless(draft)}</h1>
      <p className={styles.source}>
        <span>
          {[savedText(saving), runText(draft, run !== null, isOpen)].filter((each) => each !== '').join(' · ')}
        </span>
        {open && !isOpen ? <Button onPress={() => writing.put(open)}>Bring in the run’s text</Button> : null}
      </p>
      <p className={styles.refused} role="status">
        {saving.refused}
      </p>
    </>
  );
}

function nameless({ from, text }: Draft): string {
  if (from !== null) return newNameOf({ from }) ?? from;
  return text === EXAMPLE ? 'A sample session' : 'New session';
}

function savedText({ file, savedAt, refused }: Saving): string {
  if (refused !== null) return 'Not saved';
  if (savedAt !== null) return `Saved ${clockTime(ofDay(savedAt))}`;
  return file?.isSaved ? 'Saved' : '';
}

function runText({ text }: Draft, isBeside: boolean, isOpen: boolean): string {
  if (isOpen) return 'as the run has it';
  return isBeside && text !== '' ? 'not in use until you run it' : '';
}

/** Local, in ms after midnight. */
function ofDay(at: number): number {
  const date = new Date(at);
  return (date.getHours() * 60 + date.getMinutes()) * MINUTE;
}
