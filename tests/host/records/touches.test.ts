/* Touches of a run that may still be going are put beside its journal, with what else was added. */

import { expect, test } from 'vitest';
import { NOTHING_ADDED } from '../../../app/core/record/afterwards.ts';
import { given } from '../../support/host/records-folder.ts';
import { SwumRuns } from '../../support/host/swum-runs.ts';

const touch = (watch: number | null, at = 10_000) => ({ lane: 1, at, watch });

test('[touches] of several windows come together, and notes that were added stay', async () => {
  const { records, write } = swumRuns();
  write('one');
  const before = { ...NOTHING_ADDED, notes: ['fins'] };
  await given<'keep'>(records, { do: 'keep', run: 'one', version: null, added: before });
  await given<'touches'>(records, { do: 'touches', run: 'one', touches: [touch(38_000), touch(41_000, 70_000)] });
  const { times } = await given<'touches'>(records, { do: 'touches', run: 'one', touches: [touch(38_200)] });
  expect(times).toEqual([
    { lane: 1, at: 70_000, watches: [41_000] },
    { lane: 1, at: 10_000, watches: [38_000, 38_200] },
  ]);
  const { added, record } = await given<'review'>(records, { do: 'review', run: 'one' });
  expect(added).toEqual({ ...before, times });
  expect(record.lanes[0]?.leaves[0]?.timeMs).toBe(38_100);
  expect(record.lanes[1]?.leaves[0]?.timeMs).toBeNull();
});

test('[touches] of a run that goes on do not read its journal to the end', async () => {
  const { records, runs } = swumRuns();
  const path = '/data/runs/2026-11-26T19-30-00Z-one.jsonl';
  runs.disk.put(path, Buffer.from('whatever stands there'));
  const { times } = await given<'touches'>(records, { do: 'touches', run: 'one', touches: [touch(38_000)] });
  expect(times).toEqual([{ lane: 1, at: 10_000, watches: [38_000] }]);
  expect(runs.text('/data/runs/2026-11-26T19-30-00Z-one.after.json')).toContain('38000');
});

test('[touches] none at all only looks', async () => {
  const { records, runs, write } = swumRuns();
  write('one');
  expect(await given<'touches'>(records, { do: 'touches', run: 'one', touches: [] })).toMatchObject({ times: [] });
  expect(runs.text('/data/runs/one.after.json')).toBeNull();
});

test('[touches] beside additions of a newer program are refused, and those are left as they are', async () => {
  const { records, runs, write } = swumRuns();
  write('one');
  runs.disk.put('/data/runs/one.after.json', Buffer.from('{"version":99}'));
  const answer = await records.ask<'touches'>({ do: 'touches', run: 'one', touches: [touch(38_000)] });
  expect(answer).toMatchObject({ ok: false, why: expect.stringContaining('is of a newer Lanecall') as string });
  expect(runs.text('/data/runs/one.after.json')).toBe('{"version":99}');
});

function swumRuns() {
  const runs = new SwumRuns();
  return { runs, records: runs.records, write: (run: string) => runs.write(run) };
}
