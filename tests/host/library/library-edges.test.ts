/* The library where something is gone, is a piece, or is put to its own name; and what the coach is told then. */

import { beforeEach, describe, expect, test } from 'vitest';
import type { DeckHost } from '../../../app/host/deck/deck-host.ts';
import { Library } from '../../../app/host/library/library.ts';
import { libraryQuestion } from '../../../app/host/library/library-requests.ts';
import { freeName, nameKey } from '../../../app/host/library/session-name.ts';
import type { LibraryRequest } from '../../../app/wire/library.ts';
import { FakeDisk } from '../../support/host/folders/fake-disk.ts';

const LIST = { do: 'list', find: '', most: 10 } as const;
const HOST = {} as DeckHost;

let disk: FakeDisk;
let library: Library;

beforeEach(() => {
  disk = new FakeDisk();
  library = new Library({ disk, folder: '/data', wall: () => 5000 });
});

const ask = (asked: LibraryRequest) => library.ask(asked);
const create = (kind: 'session' | 'piece', name: string) =>
  ask({ do: 'create', kind, name, text: 'Main\n4 x 50 @ 1:00\n4 x 25\n' });

describe('[library] a piece', () => {
  test('is listed with its first lines, by the time it was written, as many as are asked for', async () => {
    await create('piece', 'one');
    await create('piece', 'two');
    const listed = await ask(LIST);
    expect(listed).toMatchObject({ pieces: [{ note: 'Main, 4 x 50 @ 1:00' }, {}], sessions: [], more: 0 });
    expect(JSON.stringify(listed)).not.toContain('"usedAt":null');
    expect(await ask({ ...LIST, most: 1 })).toMatchObject({ pieces: { length: 1 } });
  });

  test('does not take the last-used time of a session with its name', async () => {
    await create('session', 'Kick');
    await create('piece', 'Kick');
    await ask({ do: 'read', kind: 'session', name: 'Kick' });
    await create('piece', 'Pull');
    await ask({ do: 'read', kind: 'piece', name: 'Pull' });
    await ask({ do: 'rename', kind: 'piece', name: 'Kick', to: 'Drill' });
    const used = { lastUsed: { Kick: '1970-01-01T00:00:05.000Z' } };
    expect(JSON.parse(disk.text('/data/library.json'))).toEqual(used);
  });

  test('is not touched when it is renamed to its own name', async () => {
    await create('piece', 'Kick');
    disk.beforeChange = () => expect.fail('nothing is written');
    expect(await ask({ do: 'rename', kind: 'piece', name: 'Kick', to: ' Kick' })).toMatchObject({ name: 'Kick' });
  });
});

describe('[library] what is refused with a sentence', () => {
  const gone = { ok: false, why: 'Kick.txt is not there any more: it was moved or renamed elsewhere.' };

  test.each([
    { do: 'read', kind: 'session', name: 'Kick' },
    { do: 'rename', kind: 'session', name: 'Kick', to: 'Pull' },
  ] as const)('$do of what is gone', async (asked) => {
    expect(await ask(asked)).toEqual(gone);
  });

  test('a look at a text that is gone', async () => {
    const version = '0'.repeat(32);
    expect(await ask({ do: 'look', kind: 'session', name: 'Kick', version })).toEqual({
      ok: true,
      same: false,
      now: null,
    });
  });

  test('a name that is not one', async () => {
    await create('session', 'Kick');
    expect(await ask({ do: 'rename', kind: 'session', name: 'Kick', to: 'a/b' })).toMatchObject({
      ok: false,
      why: expect.stringContaining('cannot have / in it') as string,
    });
  });

  test.each(['create', 'save'] as const)('%s of what the disk does not take', async (wish) => {
    const created = await create('session', 'Kick');
    const version = created.ok && 'version' in created ? created.version : '';
    disk.refuses = 'ENOSPC';
    const text = { kind: 'session', name: 'Kick', text: 'new' } as const;
    expect(await ask(wish === 'save' ? { do: wish, ...text, version } : { do: wish, ...text })).toEqual({
      ok: false,
      why: 'Kick.txt is not saved (the disk is full): see to the folder /data. What you typed is kept in this window.',
    });
  });

  test('a folder that cannot be read', async () => {
    disk.list = () => Promise.reject(Object.assign(new Error('EIO'), { code: 'EIO' }));
    const why = 'The library cannot be reached (the disk is failing): see to the folder /data.';
    expect(await ask(LIST)).toEqual({ ok: false, why });
  });

  test.each([
    ['too large', 413],
    ['broken off', 400],
  ] as const)('of a message that is %s', async (why, status) => {
    const { answer } = libraryQuestion(library);
    const given = await answer(HOST, { query: '', type: 'application/json', body: { ok: false, why } });
    expect(given).toEqual({
      status,
      value: { ok: false, why: 'A session can have 256 KiB of text at most: make it shorter.' },
    });
  });

  test('a message that asks nothing known, or is of another type', async () => {
    const { answer, refusesType } = libraryQuestion(library);
    const body = { ok: true, bytes: Buffer.from('{}') } as const;
    expect(await answer(HOST, { query: '', type: 'application/json', body })).toEqual({
      status: 400,
      value: { ok: false, why: 'That is nothing that can be asked of the library.' },
    });
    expect(refusesType('text/plain')!.value).toMatchObject({
      why: 'Send what is asked of the library as application/json.',
    });
  });
});

describe('[library] while it is held still', () => {
  test('nothing is written, and everything is read again afterwards', async () => {
    await create('session', 'Kick');
    await ask({ do: 'read', kind: 'session', name: 'Kick' });
    await ask(LIST);
    let done = (): void => undefined;
    const still = library.still(() => new Promise<string>((resolve) => (done = () => resolve('done'))));
    const creating = create('session', 'Pull');
    // Who only looks does not wait.
    expect(await ask(LIST)).toMatchObject({ sessions: { length: 1 } });
    const version = '0'.repeat(32);
    expect(await ask({ do: 'look', kind: 'session', name: 'Kick', version })).toMatchObject({ same: false });
    await Promise.resolve();
    await new Promise((resolve) => setImmediate(resolve));
    expect(disk.files.has('/data/sessions/Pull.txt')).toBe(false);
    // From elsewhere, and without a word.
    disk.put('/data/library.json', Buffer.from('{"lastUsed":{"Kick":"2100-01-01T00:00:00.000Z"}}'));
    done();
    expect(await still).toBe('done');
    await creating;
    expect(await ask(LIST)).toMatchObject({
      sessions: [{ name: 'Kick', usedAt: Date.UTC(2100, 0, 1) }, { name: 'Pull' }],
    });
  });

  test('it goes on afterwards even if the task fails', async () => {
    await expect(library.still(() => Promise.reject(new Error('no')))).rejects.toThrow('no');
    expect(await create('session', 'Kick')).toMatchObject({ ok: true });
  });
});

test('[names] the longest name is cut between letters to make room for a number', () => {
  const long = 'x'.repeat(200);
  expect(freeName(long, new Set([nameKey(long)]))).toBe(`${'x'.repeat(196)} (2)`);
  const birds = `${'x'.repeat(2)}${'🐦'.repeat(49)}xx`;
  expect(freeName(birds, new Set([nameKey(birds)]))).toBe(`${'x'.repeat(2)}${'🐦'.repeat(48)} (2)`);
});
