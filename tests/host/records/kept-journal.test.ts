/* A run as its journal keeps it: how far it is known, when nobody was there, and what is said where not all can be used. */

import { rmSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { afterAll, beforeEach, describe, expect, test } from 'vitest';
import { systemDisk } from '../../../app/host/journal/disk.ts';
import { runsFolder } from '../../../app/host/lock/data-folder.ts';
import { readKept } from '../../../app/host/records/kept-journal.ts';
import { listRuns } from '../../../app/host/records/run-list.ts';
import { freshDataFolder, removeDataFolders } from '../../support/host/folders/data-folder.ts';
import { journalLines, said, writeJournal } from '../../support/host/folders/written-journal.ts';

const TEXT = 'Squad\nlane 1\n\nMain set\n4 x 50 @ 1:00\n';
const START = said([{ atMs: 0, fields: { do: 'start' } }]);

let data: string;
beforeEach(() => (data = freshDataFolder()));
afterAll(removeDataFolders);

type Lines = Parameters<typeof writeJournal>[2];

/** The only run of the folder, read. */
async function read(lines: Lines, more = '', text = TEXT) {
  const path = writeJournal(data, { run: 'r', text, clockPhase: 7000 }, lines, more);
  const [listed] = (await listRuns(runsFolder(data))).runs;
  return { path, name: basename(path), result: await readKept(systemDisk, listed!.path) };
}

async function kept(lines: Lines) {
  const { result } = await read(lines);
  if (result.kind !== 'run') throw new Error(result.kind);
  return result.kept;
}

const alive = (at: number) => ({ say: 'alive', at, leaves: [] }) as const;
const closed = (at: number) => ({ say: 'closed', at, why: 'left' }) as const;

describe('[record] what is kept of a run', () => {
  test('is how it was opened, what was commanded and how it ended', async () => {
    expect(await kept([...START, closed(9000.5)])).toMatchObject({
      run: 'r',
      openedAt: '2026-11-26T19:30:00',
      openedAtTimeOfDay: 19.5 * 3_600_000,
      ended: 'left',
      clockPhase: 7000,
      plan: { source: { text: TEXT, lanesText: null } },
      commands: [{ id: 'c-0', at: 0, command: { do: 'start' } }],
      away: [],
      until: 9001,
      seenAt: 0,
    });
  });

  test('says that it was closed, though a line after the close is half written', async () => {
    const { result } = await read([...START, closed(9000)], '{"say":"comm');
    expect(result).toMatchObject({ kind: 'run', kept: { ended: 'left' } });
  });

  test('is nothing if nobody began it', async () => {
    const path = writeJournal(data, { run: 'r', text: TEXT }, [{ say: 'closed', at: 9000, why: 'not begun' }]);
    expect(await readKept(systemDisk, path)).toEqual({ kind: 'not begun' });
  });

  test('counts the program as away from its last sign of life to a close more than ten seconds later', async () => {
    expect((await kept([...START, alive(60_000), closed(70_000)])).away).toEqual([]);
    expect((await kept([...START, alive(60_000), closed(70_001)])).away).toEqual([{ from: 60_000, to: 70_001 }]);
  });

  test('reaches to a sign of life after the last command', async () => {
    expect(await kept([...START, alive(60_000.25)])).toMatchObject({ until: 60_001, seenAt: 60_001, ended: 'going' });
  });

  test('has the times when the program was away, by the lines of its return', async () => {
    const back = { say: 'back', at: 140_000.5, by: 'monotonic' } as const;
    expect((await kept([...START, alive(65_000), back, alive(145_000)])).away).toEqual([{ from: 65_000, to: 140_000 }]);
  });
});

describe('[record] a journal that is not used to its end', () => {
  test('has no sentence for a last line that may still be being written', async () => {
    expect((await read(START, '{"say":"comm')).result).toMatchObject({ kind: 'run', said: null });
    expect((await read(START)).result).toMatchObject({ kind: 'run', said: null });
  });

  test('says up to which line it is used if a whole line cannot be read', async () => {
    const { name, result } = await read(START, '{"say":"comm\n');
    const expected = `The record ${name} can be used up to line 2: what stands behind that is left out.`;
    expect(result).toMatchObject({ kind: 'run', said: expected });
  });

  test('says so too if this program does not know a command', async () => {
    const { name, result } = await read([...START, ...said([{ atMs: 5, fields: { do: 'sing' } }]), closed(9000)]);
    const expected = `The record ${name} can be used up to line 2: what stands behind that is left out.`;
    expect(result).toMatchObject({ kind: 'run', said: expected, kept: { commands: { length: 1 } } });
  });
});

describe('[record] a journal of which nothing can be shown', () => {
  test('because its session has faults for this program', async () => {
    const { name, result } = await read(START, '', 'Main\n4 x 50 @ 1.00\n');
    const why =
      `The session in the record ${name} cannot be read by this Lanecall: it is left unchanged. ` +
      'Open it with the version that wrote it, or move it out of the folder.';
    expect(result).toEqual({ kind: 'unread', why });
  });

  test('because it was removed since it was listed', async () => {
    const { path, name } = await read(START);
    rmSync(path);
    const why =
      `The record ${name} cannot be read (it does not exist any more): it is left unchanged. ` +
      'Repair it and start Lanecall again, or move it out of the folder.';
    expect(await readKept(systemDisk, path)).toEqual({ kind: 'unread', why });
  });

  test('because it was damaged at its first line since, or is of a newer program', async () => {
    const { path, name } = await read(START);
    writeFileSync(path, 'x\n');
    const damaged = `The record ${name} is damaged at its first line: nothing of it can be read, and it is left as it is.`;
    expect(await readKept(systemDisk, path)).toEqual({ kind: 'unread', why: damaged });
    writeFileSync(path, journalLines({ run: 'r', text: TEXT, journal: 3 }, []).join(''));
    const newer =
      `The record ${name} was written by a newer Lanecall (form 3): it is left as it is. ` +
      'Read it with that newer version.';
    expect(await readKept(systemDisk, path)).toEqual({ kind: 'unread', why: newer });
  });
});
