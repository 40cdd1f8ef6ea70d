/* A data folder that a host opens again: what was deleted stays gone, an older form is read, a newer one is left alone. */

import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { openDeck, type OpenDeck } from '../../../app/host/deck/deck-opening.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { given } from '../../support/host/folders/records-folder.ts';
import { SQUAD_DEEDS, SQUAD_TEXT } from '../../support/host/folders/swum-runs.ts';
import { DONE, THURSDAY, writeJournal } from '../../support/host/folders/written-journal.ts';

const LIST = { do: 'list', find: '', from: null, to: null, most: 100 } as const;
const LINES = [...SQUAD_DEEDS, DONE];
const NEWER = 99;

let data: string;
let open: OpenDeck | null;

beforeEach(() => {
  data = freshDataFolder();
  open = null;
});
afterEach(() => open?.close());

async function opened(): Promise<OpenDeck> {
  await open?.close();
  const clock = new FakeClock();
  const opening = await openDeck(data, clock, clock.timers);
  if (!opening.ok) throw new Error(opening.why);
  return (open = opening.deck);
}

const listed = async (): Promise<readonly string[]> => {
  const { records } = await opened();
  return (await given<'list'>(records, LIST)).runs.map(({ run }) => run);
};

/** Every file of the folder with what is in it, but for the lock. */
const files = (): readonly string[] =>
  readdirSync(data, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.name.startsWith('host.lock'))
    .map(({ parentPath, name }) => `${name}: ${readFileSync(join(parentPath, name), 'utf8')}`)
    .sort();

test('[reopened] a run that was deleted stays gone, and nothing of it is in any file', async () => {
  writeJournal(data, { run: 'gone', text: SQUAD_TEXT }, LINES);
  writeJournal(data, { run: 'kept', text: SQUAD_TEXT, openedAt: THURSDAY - 7 * 86_400_000 }, LINES);
  expect(await listed()).toEqual(['gone', 'kept']);
  await given<'delete-run'>(open!.records, { do: 'delete-run', run: 'gone' });
  expect(await listed()).toEqual(['kept']);
  expect(files().filter((file) => file.includes('gone'))).toEqual([]);
});

test('[reopened] after everything was deleted no run, session or name is left', async () => {
  writeJournal(data, { run: 'one', text: SQUAD_TEXT }, LINES);
  const { library, records } = await opened();
  await library.ask<'create'>({ do: 'create', kind: 'session', name: 'Thursday', text: SQUAD_TEXT });
  await given<'list'>(records, LIST);
  await given<'delete-everything'>(records, { do: 'delete-everything' });
  expect(await listed()).toEqual([]);
  expect(files().filter((file) => /Bram|Harbour/.test(file))).toEqual([]);
});

test('[reopened] journals of the first form, without summaries, are read', async () => {
  writeJournal(data, { run: 'old', text: SQUAD_TEXT, journal: 1 }, LINES);
  expect(await listed()).toEqual(['old']);
  const review = await given<'review'>(open!.records, { do: 'review', run: 'old' });
  expect(review.record.lanes.map(({ distance }) => distance)).toEqual([150, 200]);
});

test('[reopened] what a newer Lanecall wrote is left byte for byte, and reported', async () => {
  writeJournal(data, { run: 'newer', text: SQUAD_TEXT, journal: NEWER }, LINES);
  const path = writeJournal(data, { run: 'ours', text: SQUAD_TEXT }, LINES);
  const after = path.replace(/jsonl$/, 'after.json');
  writeFileSync(after, JSON.stringify({ version: NEWER, run: 'ours', moods: ['good'] }));
  mkdirSync(join(data, 'runs'), { recursive: true });
  writeFileSync(join(data, 'squads.json'), JSON.stringify({ version: NEWER, squads: [] }));
  const before = files();
  const { records } = await opened();
  const list = await given<'list'>(records, LIST);
  expect(list.runs.map(({ run }) => run)).toEqual(['ours']);
  expect(list.said.join(' ')).toContain(`was written by a newer Lanecall (form ${NEWER}): it is left as it is`);
  const review = await given<'review'>(records, { do: 'review', run: 'ours' });
  expect([review.mayAdd, review.said.join(' ')]).toEqual([false, expect.stringContaining('is of a newer Lanecall')]);
  expect(files().filter((file) => !file.includes('.summary.json'))).toEqual(before);
});
