/* What is added to a run afterwards: kept beside its journal, never in it, and never over what is not ours. */

import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { afterAll, describe, expect, test } from 'vitest';
import { NOTHING_ADDED } from '../../../app/core/record/afterwards.ts';
import { systemDisk, type Disk } from '../../../app/host/journal/disk.ts';
import { AFTERWARDS_VERSION } from '../../../app/wire/records/afterwards.ts';
import { afterwardsPath, keepAfterwards, readAfterwards } from '../../../app/host/records/afterwards-file.ts';
import { FreeFolder } from '../../support/system/free-folder.ts';
import { freshDataFolder, removeDataFolders } from '../../support/host/folders/data-folder.ts';
import { lanecall } from '../../support/system/command-line.ts';
import { DONE, said, writeJournal } from '../../support/host/folders/written-journal.ts';

const TEXT =
  'Squad\nlane 1 Ana, Bram\n\nMain set\n2 x 50 fast @ 1:00 hold 0:40\n400 @ 8:00\n200 @ 5:00\n\nSwim-down\n100 easy\n';

const ADDED = {
  marks: [{ command: 1, words: 'left calf' }],
  notes: ['Ana well again'],
  attendance: [{ lane: 1, swimmers: 2, names: ['Ana', 'Bram'] }],
  effort: 6,
  times: [
    { lane: 1, at: 10_000, watches: [39_500] },
    { lane: 1, at: 70_000, watches: [41_250] },
    { lane: 1, at: 130_000, watches: [360_000] },
    { lane: 1, at: 610_000, watches: [170_000] },
  ],
};

const ports = { disk: systemDisk, guard: new FreeFolder() };

function anEvening() {
  const data = freshDataFolder();
  const commands = said([
    { atMs: 0, fields: { do: 'start' } },
    { atMs: 20_000, fields: { do: 'mark', words: 'cramp' } },
    { atMs: 75 * 60_000, fields: { do: 'finish' } },
  ]);
  const path = writeJournal(data, { run: 'evening', text: TEXT }, [...commands, { ...DONE, at: 4_600_000 }]);
  return { data, run: { run: 'evening', path } };
}

afterAll(removeDataFolders);

describe('[record] what is added afterwards', () => {
  test('comes back as it was saved, and the journal is unchanged', async () => {
    const { run } = anEvening();
    const before = readFileSync(run.path);
    expect(await readAfterwards(systemDisk, run)).toEqual({
      ok: true,
      added: NOTHING_ADDED,
      version: null,
      touches: [],
    });
    const kept = await keepAfterwards(ports, run, null, ADDED);
    expect(kept).toMatchObject({ ok: true });
    expect(await readAfterwards(systemDisk, run)).toEqual({ ...kept, added: ADDED, touches: [] });
    expect(readFileSync(run.path)).toEqual(before);
  });

  test('stands in the record: words of marks, notes, attendance, effort, load and hand times', async () => {
    const { data, run } = anEvening();
    await keepAfterwards(ports, run, null, ADDED);
    const { stdout } = await lanecall(['record', 'evening', '--data', data, '--format', 'json'], '/');
    expect(JSON.parse(stdout)).toMatchObject({
      commands: [{ do: 'start' }, { do: 'mark', words: 'cramp', added: 'left calf' }, { do: 'finish' }],
      notes: ADDED.notes,
      attendance: ADDED.attendance,
      effort: 6,
      load: 450,
      lanes: [{ leaves: [39_500, 41_250, 360_000, 170_000].map((timeMs) => ({ timeMs })) }],
    });
    const text = (await lanecall(['record', 'evening', '--data', data], '/')).stdout.replace(/\s+/g, ' ');
    expect(text).toContain('cramp, left calf');
    expect(text).toContain('lane 1: 2 there, Ana, Bram effort 6 of 10, load 450 Ana well again');
    expect(text).toContain(
      'lane 1, 50 fast: 0:39.5 (1:19 a 100, 0.5 under), 0:41.2 (1:22.4 a 100, 1.2 over); fade 3.4 s a 100',
    );
    expect(text).toContain('lane 1: css ≈1:35 by its 400 and 200');
  });

  test.each([
    [`{"version":${AFTERWARDS_VERSION + 1}}`, 'is of a newer Lanecall'],
    ['{"version":1', 'is damaged'],
    ['{"version":1,"run":"evening","effort":11}', 'is not of this run'],
    [JSON.stringify({ version: 1, run: 'other', ...NOTHING_ADDED }), 'is not of this run'],
  ])('%s %s: it is left as it is, and the record is printed without it', async (file, why) => {
    const { data, run } = anEvening();
    writeFileSync(afterwardsPath(run.path), file);
    expect(await keepAfterwards(ports, run, null, ADDED)).toEqual({ ok: false, why: expect.stringContaining(why) });
    expect(readFileSync(afterwardsPath(run.path), 'utf8')).toBe(file);
    const { status, stdout, stderr } = await lanecall(['record', 'evening', '--data', data], '/');
    expect([status, stdout !== '']).toEqual([0, true]);
    expect(stderr).toMatch(
      new RegExp(`^What was added to the run in \\S+ ${why}: it is left as it is and not shown\\.\n$`),
    );
  });

  test('stands beside its journal, wherever that is', () => {
    expect(afterwardsPath('/data/a.jsonl/runs/b.jsonl')).toBe('/data/a.jsonl/runs/b.after.json');
  });

  test('is damaged if its bytes are not UTF-8; a file that the disk does not give is reported with the reason', async () => {
    const { run } = anEvening();
    const text = JSON.stringify({ version: 1, run: 'evening', ...NOTHING_ADDED, notes: ['\u00ff'] });
    writeFileSync(afterwardsPath(run.path), Buffer.from(text, 'latin1'));
    expect(await readAfterwards(systemDisk, run)).toMatchObject({ why: expect.stringContaining(' is damaged: ') });
    const read = () => Promise.reject(Object.assign(new Error('EIO'), { code: 'EIO' }));
    const { ok, why } = (await readAfterwards({ read }, run)) as { ok: boolean; why?: string };
    expect([ok, why]).toEqual([false, expect.stringMatching(/ cannot be read \(the disk is failing\): it is left /)]);
  });

  test('has a version of its own for each content', async () => {
    const { run } = anEvening();
    const first = await keepAfterwards(ports, run, null, ADDED);
    const second = await keepAfterwards(ports, run, first.ok ? first.version : null, { ...ADDED, effort: 7 });
    const versions = [first, second].map((kept) => (kept.ok ? kept.version : ''));
    for (const version of versions) expect(version).toMatch(/^[0-9a-f]{32}$/);
    expect(new Set(versions).size).toBe(2);
  });

  test.each([
    ['another time', { changed: 1n }],
    ['another length', { length: 1 }],
  ])('[conflicts] a file with %s at the last moment is not written over', async (_, other) => {
    const { run } = anEvening();
    const first = await keepAfterwards(ports, run, null, ADDED);
    let looks = 0;
    const mark = (path: string) => ({ ...systemDisk.mark(path)!, ...(looks++ > 0 ? other : {}) });
    const second = await keepAfterwards(
      { ...ports, disk: { ...systemDisk, mark } },
      run,
      first.ok ? first.version : null,
      { ...ADDED, effort: 1 },
    );
    expect(second).toEqual({
      ok: false,
      why: 'Another window has added to this run since: look at what it wrote, and save again.',
      changed: { added: ADDED, version: first.ok && first.version },
    });
  });

  test('is not written if another host has the folder', async () => {
    const { run } = anEvening();
    const guard = new FreeFolder();
    guard.taken = true;
    const kept = await keepAfterwards({ disk: systemDisk, guard }, run, null, ADDED);
    expect(kept).toEqual({ ok: false, why: expect.stringContaining('cannot be kept') });
    expect(existsSync(afterwardsPath(run.path))).toBe(false);
  });

  test('[conflicts] does not overwrite what another window has saved since, not even at the last moment', async () => {
    const { run } = anEvening();
    const first = await keepAfterwards(ports, run, null, ADDED);
    const second = await keepAfterwards(ports, run, null, { ...ADDED, effort: 1 });
    expect(second).toMatchObject({ ok: false, changed: { added: ADDED, version: first.ok && first.version } });
    const disk: Disk = {
      ...systemDisk,
      replace(path, bytes, check) {
        writeFileSync(path, JSON.stringify({ version: 1, run: 'evening', ...ADDED, effort: 9 }));
        return systemDisk.replace(path, bytes, check);
      },
    };
    const third = await keepAfterwards({ ...ports, disk }, run, first.ok ? first.version : null, {
      ...ADDED,
      effort: 2,
    });
    expect(third).toMatchObject({ ok: false, changed: { added: { effort: 9 } } });
    expect(await readAfterwards(systemDisk, run)).toMatchObject({ added: { effort: 9 } });
  });
});
