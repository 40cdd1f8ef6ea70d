/* The library on a folder of this machine: what only a real disk does. */

import { execFileSync } from 'node:child_process';
import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { systemDisk } from '../../../app/host/journal/disk.ts';
import { Library } from '../../../app/host/library/library.ts';

const TEXT = 'Harbour\nMain set\n8 x 50 free @ 1:00\n';

let folder: string;
let library: Library;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'lanecall-library-'));
  library = new Library({ disk: systemDisk, folder, wall: () => Date.now() });
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const create = (name: string, text = TEXT) => library.ask<'create'>({ do: 'create', kind: 'session', name, text });
const list = async (find = ''): Promise<readonly string[]> => {
  const answer = await library.ask<'list'>({ do: 'list', find, most: 100 });
  return answer.ok ? answer.sessions.map(({ name }) => name).sort() : [answer.why];
};

test('[library] files have the names people gave them, and nothing else is left in the folder', async () => {
  const names = ['Thursday masters', 'Größe 3 × 10', '木曜日の練習', '👩🏽‍🏫', `${'long '.repeat(39)}name`];
  for (const name of names) expect(await create(name)).toMatchObject({ ok: true, name });
  expect(await create('木曜日の練習')).toMatchObject({ name: '木曜日の練習 (2)' });
  const files = readdirSync(join(folder, 'sessions'));
  expect(files.sort()).toEqual([...names, '木曜日の練習 (2)'].map((name) => `${name}.txt`).sort());
  for (const file of files) expect(readFileSync(join(folder, 'sessions', file), 'utf8')).toBe(TEXT);
  for (const name of names) await library.ask<'discard'>({ do: 'discard', kind: 'session', name });
  expect(await list()).toEqual(['木曜日の練習 (2)']);
});

test('[library] what other programs write, move and remove is reported by the system', async () => {
  await create('Tuesday');
  expect(await list()).toEqual(['Tuesday']);
  writeFileSync(join(folder, 'sessions', 'Friday.txt'), TEXT.replace('free', 'kick'));
  await expect.poll(() => list()).toEqual(['Friday', 'Tuesday']);
  expect(await list('kick')).toEqual(['Friday']);
  rmSync(join(folder, 'sessions', 'Tuesday.txt'));
  await expect.poll(() => list()).toEqual(['Friday']);
  rmSync(join(folder, 'sessions'), { recursive: true });
  await expect.poll(() => list(), { timeout: 15_000 }).toEqual([]);
  expect(await create('Sunday')).toMatchObject({ ok: true });
});

test('[library] folders, pipes, devices and very large files in the folder hold nothing up', async () => {
  const sessions = join(folder, 'sessions');
  mkdirSync(join(sessions, 'folder.txt'), { recursive: true });
  writeFileSync(join(sessions, 'film.txt'), Buffer.alloc(3_000_000, 65));
  writeFileSync(join(sessions, 'notes.doc'), 'not ours');
  if (process.platform !== 'win32') {
    execFileSync('mkfifo', [join(sessions, 'pipe.txt')]);
    symlinkSync('/dev/zero', join(sessions, 'zero.txt'));
    symlinkSync('nowhere', join(sessions, 'dangling.txt'));
  }
  await create('Tuesday');
  const answer = await library.ask<'list'>({ do: 'list', find: '', most: 100 });
  const notes = answer.ok ? answer.sessions.map(({ name, note }) => `${name}: ${note}`).sort() : [];
  expect(notes).toContain('Tuesday: null');
  expect(notes).toContain('film: no plain text');
  expect(notes).toContain('folder: cannot be read');
  for (const name of ['folder', 'pipe', 'zero', 'film', 'dangling']) {
    expect(await library.ask<'read'>({ do: 'read', kind: 'session', name })).toMatchObject({ ok: false });
  }
});

test('[library] a write-protected folder gives a sentence and loses nothing (root may write all the same)', async () => {
  await create('Tuesday');
  chmodSync(join(folder, 'sessions'), 0o500);
  const answer = await create('Friday');
  chmodSync(join(folder, 'sessions'), 0o700);
  if (process.getuid?.() === 0) expect(answer).toMatchObject({ ok: true });
  else expect(answer).toMatchObject({ ok: false, why: expect.stringContaining('may not read or write') as string });
  expect(await list()).toContain('Tuesday');
});

test('[library] a file in place of a folder gives a sentence', async () => {
  writeFileSync(join(folder, 'sessions'), 'a file');
  expect(await create('Tuesday')).toMatchObject({
    ok: false,
    why: expect.stringContaining('there is a file in place of a folder') as string,
  });
  expect(await list()).toEqual([expect.stringContaining('there is a file in place of a folder')]);
});
