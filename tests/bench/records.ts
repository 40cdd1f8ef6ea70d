/* How long it takes to list a thousand evenings, to open the history of them, and to make the record of one, from a real folder. */

import { rmSync } from 'node:fs';
import { lanesOf, weeksOf } from '../../app/core/record/history/over-time.ts';
import { recordOf } from '../../app/core/record/record.ts';
import { systemDisk } from '../../app/host/journal/disk.ts';
import { runsFolder } from '../../app/host/lock/data-folder.ts';
import { readKept } from '../../app/host/records/kept-journal.ts';
import { listRuns } from '../../app/host/records/run-list.ts';
import { recordsOn } from '../support/host/folders/records-folder.ts';
import { thousandEvenings } from './history/thousand-evenings.ts';
import { row, type Row } from './table.ts';

export async function benchRecords(): Promise<readonly Row[]> {
  const data = thousandEvenings();
  const first = await timed(() => listRuns(runsFolder(data)));
  const again = await timed(() => listRuns(runsFolder(data)));
  const one = await timed(async () => {
    const read = await readKept(systemDisk, first.value.runs[0]!.path);
    if (read.kind !== 'run') throw new Error(read.kind);
    return recordOf(read.kept);
  });
  const worked = await timed(() => openHistory(data));
  const opened = await timed(() => openHistory(data));
  rmSync(data, { recursive: true });
  return [
    row(`${first.value.runs.length} runs listed, the first time`, millis(first.ms)),
    row(`${again.value.runs.length} runs listed, again`, millis(again.ms)),
    row('the record of one of them', millis(one.ms)),
    row(`the history of ${worked.value} runs, the first time ever`, millis(worked.ms)),
    row(
      `the history of ${opened.value} runs after a start, with its answer read and its weeks summed`,
      millis(opened.ms),
    ),
  ];
}

/** As the coach's window opens it on a host that has just started; how many runs there are. */
async function openHistory(data: string): Promise<number> {
  const records = recordsOn(systemDisk, { data, now: () => performance.now() });
  for (;;) {
    const answer = await records.ask<'list'>({ do: 'list', find: '', from: null, to: null, most: 10_000 });
    if (!answer.ok) throw new Error(answer.why);
    const read = JSON.parse(JSON.stringify(answer)) as typeof answer;
    if (read.toCome > 0) continue;
    weeksOf(read.runs);
    lanesOf(read.runs);
    return read.runs.length;
  }
}

async function timed<Value>(work: () => Promise<Value>): Promise<{ readonly value: Value; readonly ms: number }> {
  const begun = performance.now();
  const value = await work();
  return { value, ms: performance.now() - begun };
}

function millis(ms: number): string {
  return `${ms.toFixed(0)} ms`;
}
