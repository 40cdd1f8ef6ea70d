/*
 * Random sessions and scripts, written as journals and read back: the record has the leaves that the independent model
 * works out, and every command that was accepted.
 */

import { afterAll, expect, test } from 'vitest';
import { recordJson } from '../../../app/core/record/tables/record-json.ts';
import { recordOf } from '../../../app/core/record/record.ts';
import { runsFolder } from '../../../app/host/lock/data-folder.ts';
import { systemDisk } from '../../../app/host/journal/disk.ts';
import { readKept } from '../../../app/host/records/kept-journal.ts';
import { listRuns } from '../../../app/host/records/run-list.ts';
import { modelRehearsal } from '../../model/run/run-model.ts';
import { textOf } from '../../model/scenario.ts';
import { inventTrial } from '../../model/trial.ts';
import { recordedCommands, recordedLeaves } from '../../support/run/recorded.ts';
import { freshDataFolder, removeDataFolders } from '../../support/host/folders/data-folder.ts';
import { said, writeJournal } from '../../support/host/folders/written-journal.ts';

const SEEDS = 30;

/** Longer than any of them. */
const LATER = 1000 * 60 * 60 * 1000;

afterAll(removeDataFolders);

test(`[record] seeds 1 to ${SEEDS}`, async () => {
  const data = freshDataFolder();
  const expected = new Map<string, ReturnType<typeof modelRehearsal>>();
  const accepted = new Map<string, readonly { readonly atMs: number }[]>();
  for (let seed = 1; seed <= SEEDS; seed++) {
    const { written, phaseMs, commands, texts } = inventTrial(seed);
    const run = `seed-${seed}`;
    const model = modelRehearsal(written, phaseMs, commands, texts);
    const given = commands.filter((_, index) => model.answers[index]!.ok);
    const opening = { run, text: textOf(written), lanesText: written.lanesText, clockPhase: phaseMs };
    const lines = said(given.map(({ atMs, ...fields }) => ({ atMs, fields })));
    writeJournal(data, opening, [...lines, { say: 'closed', at: LATER, why: 'replaced' }]);
    expected.set(run, model);
    accepted.set(run, given);
  }
  const { runs, unread } = await listRuns(runsFolder(data));
  expect([runs.length, unread]).toEqual([SEEDS, []]);
  for (const listed of runs) {
    const read = await readKept(systemDisk, listed.path);
    if (read.kind !== 'run') throw new Error(read.kind);
    expect(read.said, listed.run).toBeNull();
    const record = recordJson(recordOf(read.kept));
    expect(recordedLeaves(record), listed.run).toEqual(expected.get(listed.run)!.leaves);
    expect(recordedCommands(record)).toEqual(accepted.get(listed.run));
    for (const { durationMs } of record.parts) expect(durationMs, listed.run).toBeGreaterThanOrEqual(0);
  }
}, 60_000);
