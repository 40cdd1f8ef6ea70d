/* What the coach is told where something about the runs that are kept is refused, word for word. */

import { beforeEach, expect, test } from 'vitest';
import { NOTHING_ADDED } from '../../../app/core/record/afterwards.ts';
import { recordsQuestion } from '../../../app/host/records/records-requests.ts';
import type { DeckHost } from '../../../app/host/deck/deck-host.ts';
import { FakeDisk } from '../../support/host/folders/fake-disk.ts';
import { given, recordsOn } from '../../support/host/folders/records-folder.ts';
import { DONE, journalLines } from '../../support/host/folders/written-journal.ts';

const LIST = { do: 'list', find: '', from: null, to: null, most: 10 } as const;
const KEEP = { do: 'keep', run: 'one', version: null, added: NOTHING_ADDED } as const;
const TEXT = 'Main\n4 x 50 @ 1:00\n';
const HOST = {} as DeckHost;

let disk: FakeDisk;
beforeEach(() => {
  disk = new FakeDisk();
  const started = { say: 'command', at: 1000, id: 'a', command: { do: 'start' } } as const;
  disk.put('/data/runs/one.jsonl', Buffer.from(journalLines({ run: 'one', text: TEXT }, [started, DONE]).join('')));
});

test.each([
  [{ do: 'delete-run', run: 'one' }, 'This run'],
  [{ do: 'delete-name', name: 'Ana' }, 'A run'],
  [{ do: 'delete-everything' }, 'A run'],
] as const)('[records] %j is refused while one is going', async (asked, what) => {
  const records = recordsOn(disk, { opened: { id: () => 'one', letGo: () => Promise.resolve(false) } });
  expect(await records.ask(asked)).toEqual({
    ok: false,
    why:
      `${what} is still going, and nothing is deleted: finish it first. ` +
      'From ten seconds after its end on it can be deleted.',
  });
});

test('[records] a name without a letter is refused', async () => {
  const why = 'A name has a letter: write the name as it stands in the sessions.';
  expect(await recordsOn(disk).ask({ do: 'delete-name', name: '12' })).toEqual({ ok: false, why });
});

test('[records] a folder that cannot be read is named, with the reason', async () => {
  disk.list = () => Promise.reject(Object.assign(new Error('EIO'), { code: 'EIO' }));
  const why = 'The runs cannot be reached (the disk is failing): see to the folder /data.';
  expect(await recordsOn(disk).ask(LIST)).toEqual({ ok: false, why });
});

test('[records] a deletion file that cannot be read is reported at each look, and nothing more is deleted', async () => {
  disk.put('/data/deleting.json', Buffer.from('?'));
  const why = '/data/deleting.json cannot be read by this Lanecall: what was to be deleted may still be there.';
  const records = recordsOn(disk);
  expect((await given<'list'>(records, LIST)).said).toEqual([why]);
  expect(await records.ask({ do: 'delete-run', run: 'one' })).toEqual({ ok: false, why });
  expect(disk.files.has('/data/runs/one.jsonl')).toBe(true);
});

test('[records] a deletion that could not be finished is reported with the reason', async () => {
  disk.removeAll = () => Promise.reject(Object.assign(new Error('EIO'), { code: 'EIO' }));
  expect(await recordsOn(disk).ask({ do: 'delete-run', run: 'one' })).toEqual({
    ok: false,
    why:
      'What was to be deleted is in part still there (the disk is failing): Lanecall goes on with it at the next start, ' +
      'or when you look at the history again.',
  });
});

test('[records] additions that cannot be saved are reported with the reason', async () => {
  disk.refuses = 'ENOSPC';
  const why = 'What you added to the run cannot be kept (the disk is full): free the disk and save it again.';
  expect(await recordsOn(disk).ask(KEEP)).toEqual({ ok: false, why });
});

test('[records] a session without a title is called “Session”', async () => {
  disk.put('/data/runs/one.jsonl', Buffer.from(journalLines({ run: 'one', text: '4 x 50 @ 1:00\n' }, [DONE]).join('')));
  const session = await given<'session'>(recordsOn(disk), { do: 'session', run: 'one' });
  expect(session).toMatchObject({ title: 'Session', text: '4 x 50 @ 1:00\n', lanesText: null });
});

test.each([
  ['too large', 413, 'That is too much to add to one run: leave something out.'],
  ['broken off', 400, 'That is too much to add to one run: leave something out.'],
])('[records] a message that is %s is answered with %i', async (why, status, sentence) => {
  const body = { ok: false, why } as Parameters<ReturnType<typeof recordsQuestion>['answer']>[1]['body'];
  const { answer } = recordsQuestion(recordsOn(disk));
  expect(await answer(HOST, { query: '', type: 'application/json', body })).toEqual({
    status,
    value: { ok: false, why: sentence },
  });
});

test('[records] a message that asks nothing known is refused, and one of another type is told the right type', async () => {
  const { answer, refusesType } = recordsQuestion(recordsOn(disk));
  const body = { ok: true, bytes: Buffer.from('{}') } as const;
  expect(await answer(HOST, { query: '', type: 'application/json', body })).toEqual({
    status: 400,
    value: { ok: false, why: 'That is nothing that can be asked about the runs.' },
  });
  expect([refusesType('application/json'), refusesType('text/plain')?.value]).toEqual([
    null,
    { ok: false, why: 'Send what is asked about the runs as application/json.' },
  ]);
});
