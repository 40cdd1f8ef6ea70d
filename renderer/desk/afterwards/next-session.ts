/*
 * The session after the one that is over: a new one of the same squad.
 */

import { settingsIn } from '../../../app/core/session/text/text-with-lane.ts';
import { draftOf, EMPTY, firstDraft, isSame, type DraftedRun } from '../write/draft.ts';
import type { Writing } from '../write/writing.ts';

/**
 * A new session goes into the editor, with the settings and lanes of the run: what is to be said. null where the coach
 * has begun another one beside the run, which stays there.
 */
export function writeNext(writing: Writing, run: DraftedRun): string | null {
  const { draft } = writing.state();
  const ran = draftOf(run);
  if (firstDraft(run, draft) === draft && !isSame(draft, ran)) return null;
  writing.put({ ...EMPTY, text: settingsIn(ran.text), lanesText: ran.lanesText, during: run.id });
  return 'A new session with the same lanes. The last one is in the history.';
}
