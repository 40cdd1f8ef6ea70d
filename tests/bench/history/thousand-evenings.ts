/*
 * A thousand eventful evenings in a data folder, one a day, as a host leaves them.
 */

import { systemDisk } from '../../../app/host/journal/disk.ts';
import { eveningScript, eveningText } from '../../support/run/eventful-evening.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { given, recordsOn } from '../../support/host/folders/records-folder.ts';
import { DONE, said, THURSDAY, writeJournal } from '../../support/host/folders/written-journal.ts';

export const RUNS = 1000;
const DAY = 24 * 60 * 60 * 1000;

/** A sign of life every 5 s of an hour. */
const SIGNS = Array.from({ length: 720 }, (_, index) => ({ say: 'alive', at: 3_530_000 + index, leaves: [] }) as const);

/** Its path; gone when this process ends. */
export function thousandEvenings(): string {
  const data = freshDataFolder();
  const lines = [...said(eveningScript()), ...SIGNS, DONE];
  for (let run = 0; run < RUNS; run++) {
    writeJournal(data, { run: `run-${run}`, text: eveningText(), openedAt: THURSDAY - run * DAY }, lines);
  }
  return data;
}

/** Says of each how hard it was, so that load is drawn too, and keeps their summaries: a host that starts has them. */
export async function workedOut(data: string): Promise<void> {
  const records = recordsOn(systemDisk, { data, now: () => performance.now() });
  for (let run = 0; run < RUNS; run++) {
    const added = { marks: [], notes: [], attendance: null, effort: 3 + (run % 6), times: [] };
    await given<'keep'>(records, { do: 'keep', run: `run-${run}`, version: null, added });
  }
  const every = { do: 'list', find: '', from: null, to: null, most: RUNS } as const;
  while ((await given<'list'>(records, every)).toCome > 0);
}
