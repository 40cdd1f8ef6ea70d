/*
 * A session that was opened and never started, as it is told from others: by its title and when it was opened.
 */

import { titleOf } from '../../core/session/parse.ts';
import type { NeverStarted } from '../../wire/records/records.ts';
import type { Disk } from '../journal/disk.ts';
import { readJournal } from '../journal/journal-text.ts';
import { openedAtOf } from './opened-at.ts';
import { stemOf } from './run-files.ts';

/** None where the journal is damaged, or of a newer version. Rejects with the system's reason where it cannot be read. */
export async function neverStartedIn(disk: Pick<Disk, 'read'>, path: string): Promise<readonly NeverStarted[]> {
  const journal = readJournal(await disk.read(path));
  if (journal.kind !== 'journal') return [];
  const { opened } = journal;
  return [{ name: stemOf(path), title: titleOf(opened.text) ?? 'Session', openedAt: openedAtOf(opened) }];
}
