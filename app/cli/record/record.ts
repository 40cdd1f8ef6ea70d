/*
 * `lanecall record`: what was swum. Without a run all runs that are kept, a line each; with one its record. It only
 * reads, so that it can be asked while a host uses the folder.
 */

import { stat } from 'node:fs/promises';
import { homedir } from 'node:os';
import { basename } from 'node:path';
import { NOTHING_ADDED } from '../../core/record/afterwards.ts';
import { recordOf } from '../../core/record/record.ts';
import { recordCsv } from '../../core/record/tables/record-csv.ts';
import { recordJson } from '../../core/record/tables/record-json.ts';
import { diskReason, systemDisk } from '../../host/journal/disk.ts';
import { dataFolder, runsFolder } from '../../host/lock/data-folder.ts';
import { readAfterwards } from '../../host/records/afterwards-file.ts';
import { readKept } from '../../host/records/kept-journal.ts';
import { listRuns, type ListedRun, type RunList } from '../../host/records/run-list.ts';
import { readArguments } from '../arguments.ts';
import { complain, EXIT, pathFrom, write, type Io } from '../io.ts';
import { help, wrongUsage } from '../usage.ts';
import { listCsv, listJson, listText } from './format-list.ts';
import { recordText } from './format-text.ts';

const FORMATS = ['text', 'json', 'csv'] as const;

type Format = (typeof FORMATS)[number];

/** Runs `record` with the words after it; gives the exit status. */
export async function record(args: readonly string[], io: Io): Promise<number> {
  const read = readArguments(args, { data: 'value', format: 'value' });
  if (!read.ok) return wrongUsage(io, 'record', read.faults);
  const { positionals, values, flags } = read.value;
  if (flags.has('help')) return help(io, 'record');
  const [run, ...more] = positionals;
  if (more.length > 0) return wrongUsage(io, 'record', `takes one run at most, not ${positionals.length}`);
  const format = FORMATS.find((known) => known === (values.get('format') ?? 'text'));
  if (!format) return wrongUsage(io, 'record', `--format needs one of ${FORMATS.join(', ')}`);
  const data = values.get('data');
  const missing = data === undefined ? null : await missingFolder(io, data);
  if (missing !== null) return notRead(io, missing);
  const machine = { platform: process.platform, env: process.env, home: homedir() };
  const folder = data === undefined ? dataFolder(machine) : pathFrom(io, data);
  let list: RunList;
  try {
    list = await listRuns(runsFolder(folder));
  } catch (error) {
    return notRead(io, `The runs in ${folder} cannot be read (${diskReason(error)}).`);
  }
  return run === undefined ? printList(io, list, folder, format) : printRun(io, list, run, folder, format);
}

async function printList(io: Io, { runs, unread }: RunList, folder: string, format: Format): Promise<number> {
  for (const { why } of unread) await complain(io, why);
  if (runs.length === 0 && format === 'text') await complain(io, `No runs are kept in ${folder}.`);
  await write(io.stdout, { text: listText, json: listJson, csv: listCsv }[format](runs));
  return EXIT.done;
}

async function printRun(
  io: Io,
  { runs, unread }: RunList,
  run: string,
  folder: string,
  format: Format,
): Promise<number> {
  const listed = runs.find((each) => each.run === run);
  if (!listed) {
    const known = unread.find(({ path }) => basename(path).includes(run));
    return notRead(io, known?.why ?? `There is no run ${run} in ${folder}: lanecall record lists those that are.`);
  }
  const text = await textOf(io, listed, format);
  if (text === null) return EXIT.noInput;
  await write(io.stdout, text);
  return EXIT.done;
}

async function textOf(io: Io, listed: ListedRun, format: Format): Promise<string | null> {
  const read = await readKept(systemDisk, listed.path);
  if (read.kind !== 'run') {
    await complain(io, read.kind === 'unread' ? read.why : `Nobody has begun the run ${listed.run}.`);
    return null;
  }
  if (read.said !== null) await complain(io, read.said);
  const after = await readAfterwards(systemDisk, listed);
  if (!after.ok) await complain(io, after.why);
  const made = recordOf(read.kept, after.ok ? after.added : NOTHING_ADDED);
  if (format === 'csv') return recordCsv(made);
  return format === 'json' ? `${JSON.stringify(recordJson(made), null, 2)}\n` : recordText(made);
}

async function missingFolder(io: Io, data: string): Promise<string | null> {
  try {
    return (await stat(pathFrom(io, data))).isDirectory() ? null : `${data}: it is not a folder`;
  } catch (error) {
    return `${data}: the folder cannot be read (${diskReason(error)})`;
  }
}

async function notRead(io: Io, line: string): Promise<number> {
  await complain(io, line);
  return EXIT.noInput;
}
