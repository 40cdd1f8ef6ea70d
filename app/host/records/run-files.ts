/*
 * The files of one run in the folder of the journals: the journal, what stands beside it under the same name, and what
 * a write that was cut off has left of either.
 */

import { basename } from 'node:path';

const JOURNAL = '.jsonl';

export function isJournal(name: string): boolean {
  return name.endsWith(JOURNAL);
}

/** The name that all files of a run begin with: `2026-11-05T19-30-02Z-…`. */
export function stemOf(journal: string): string {
  return basename(journal).slice(0, -JOURNAL.length);
}

/** Whether a journal has the name that a run's journal gets. */
export function isJournalOf(name: string, run: string): boolean {
  return /^[\w-]{1,40}$/.test(run) && name.endsWith(`Z-${run}${JOURNAL}`);
}

/** `….jsonl` and `….summary.json`. */
export function summaryPath(journal: string): string {
  return `${journal.slice(0, -JOURNAL.length)}.summary.json`;
}

/** Those of the names that belong to a run, its journal first. */
export function namesOfRun(stem: string, names: readonly string[]): readonly string[] {
  const longer = names.filter((name) => isJournal(name) && name.startsWith(`${stem}.`) && name !== stem + JOURNAL);
  const own = names.filter(
    (name) => name.startsWith(`${stem}.`) && !longer.some((other) => name.startsWith(`${stemOf(other)}.`)),
  );
  return own.sort((a, b) => Number(isJournal(b)) - Number(isJournal(a)));
}
