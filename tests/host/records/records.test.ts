/* What is asked of the runs that are kept, on a disk in memory. */

import { beforeEach, expect, test } from 'vitest';
import { NOTHING_ADDED } from '../../../app/core/record/afterwards.ts';
import { given, recordsOn } from '../../support/host/folders/records-folder.ts';
import { SQUAD_TEXT, SwumRuns } from '../../support/host/folders/swum-runs.ts';
import { journalLines, THURSDAY } from '../../support/host/folders/written-journal.ts';

const LIST = { do: 'list', find: '', from: null, to: null, most: 100 } as const;
const MINUTE = 60_000;

let runs: SwumRuns;
beforeEach(() => (runs = new SwumRuns()));

const listed = async (asked: Partial<typeof LIST> = {}): Promise<readonly string[]> =>
  (await given<'list'>(runs.records, { ...LIST, ...asked })).runs.map(({ run }) => run);

test('[records] runs are listed by when they were opened, whatever their files are called', async () => {
  for (const [name, minutes] of [
    ['a', 3],
    ['b', 1],
    ['c', 2],
    ['d', 1],
  ] as const)
    runs.write(name, { openedAt: THURSDAY + minutes * MINUTE });
  expect(await listed()).toEqual(['a', 'c', 'd', 'b']);
});

test('[records] a review says what could not be used of the journal, and of what was added', async () => {
  runs.write('one');
  const whole = await given<'review'>(runs.records, { do: 'review', run: 'one' });
  expect(whole).toMatchObject({ added: NOTHING_ADDED, version: null, mayAdd: true, said: [] });
  runs.disk.put('/data/runs/one.jsonl', Buffer.from(`${runs.text('/data/runs/one.jsonl')}damaged\n`));
  runs.disk.put('/data/runs/one.after.json', Buffer.from('damaged'));
  expect(await given<'review'>(runs.records, { do: 'review', run: 'one' })).toMatchObject({
    added: NOTHING_ADDED,
    version: null,
    mayAdd: false,
    said: [
      'The record one.jsonl can be used up to line 5: what stands behind that is left out.',
      'What was added to the run in one.after.json is damaged: it is left as it is and not shown.',
    ],
  });
});

test('[records] a run is found though the folder has a session that nobody began', async () => {
  runs.write('one');
  const lines = journalLines({ run: 'zero', text: SQUAD_TEXT }, [{ say: 'closed', at: 1000, why: 'not begun' }]);
  runs.disk.put('/data/runs/zero.jsonl', Buffer.from(lines.join('')));
  await given<'review'>(runs.records, { do: 'review', run: 'one' });
  await given<'delete-run'>(runs.records, { do: 'delete-run', run: 'one' });
  expect(await listed()).toEqual([]);
  expect(await runs.ask({ do: 'review', run: 'one' })).toEqual({
    ok: false,
    why: 'This run is not there any more: it was deleted or moved elsewhere.',
  });
});

test('[records] a journal that the disk no longer gives is refused with the reason', async () => {
  runs.write('one');
  await listed();
  runs.disk.unreadable.set('/data/runs/one.jsonl', 'EIO');
  expect(await runs.ask({ do: 'review', run: 'one' })).toEqual({
    ok: false,
    why:
      'The record one.jsonl cannot be read (the disk is failing): it is left unchanged. ' +
      'Repair it and start Lanecall again, or move it out of the folder.',
  });
});

test('[records] the oldest of many runs is found and deleted though the history is not worked out yet', async () => {
  for (let n = 0; n < 6; n++) runs.write(`run-${n}`, { openedAt: THURSDAY + n * MINUTE });
  let time = 0;
  const slow = () => recordsOn(runs.disk, { now: () => (time += 200) });
  expect(await given<'session'>(slow(), { do: 'session', run: 'run-0' })).toMatchObject({ title: expect.any(String) });
  for (let n = 0; n < 6; n++) runs.disk.takeAway(`/data/runs/run-${n}.summary.json`);
  await given<'delete-run'>(slow(), { do: 'delete-run', run: 'run-0' });
  expect(runs.disk.files.has('/data/runs/run-0.jsonl')).toBe(false);
});

test('[records] blanks around a name to delete do not count', async () => {
  runs.write('one');
  await given<'delete-name'>(runs.records, { do: 'delete-name', name: '  Ana ' });
  expect(runs.text('/data/runs/one.jsonl')).not.toContain('Ana');
});

test('[records] a run is found by its day and by words of it, in any order', async () => {
  runs.write('one');
  const found = async (asked: { find?: string; from?: string; to?: string }): Promise<number> =>
    (await given<'list'>(runs.records, { ...LIST, ...asked })).runs.length;
  for (const find of ['thursday', '2026-11-26', 'harbour 26']) expect(await found({ find }), find).toBe(1);
  // A word does not reach from one text into the next.
  for (const find of ['friday', 'harbour friday', 'thursdaymain']) expect(await found({ find }), find).toBe(0);
  expect([await found({ from: '2026-11-26' }), await found({ from: '2026-11-27' })]).toEqual([1, 0]);
  expect([await found({ to: '2026-11-26' }), await found({ to: '2026-11-25' })]).toEqual([1, 0]);
});

test('[records] what was added is kept under a version, which the next addition names', async () => {
  runs.write('one');
  const keep = (version: string | null, effort: number) =>
    given<'keep'>(runs.records, { do: 'keep', run: 'one', version, added: { ...NOTHING_ADDED, effort } });
  const { version } = await keep(null, 5);
  await keep(version, 6);
  expect(await runs.ask({ do: 'keep', run: 'one', version, added: NOTHING_ADDED })).toEqual({
    ok: false,
    why: 'Another window has added to this run since: look at what it wrote, and save again.',
    changed: { added: { ...NOTHING_ADDED, effort: 6 }, version: expect.stringMatching(/^[0-9a-f]{32}$/) as string },
  });
});

test('[records] a run has a table', async () => {
  runs.write('one');
  const { csv } = await given<'table'>(runs.records, { do: 'table', run: 'one' });
  expect(csv.split('\r\n')[0]).toMatch(/^what,time of day,/);
});
