/* The library of sessions, on a disk in memory: files as people name them, and nothing lost. */

import { beforeEach, describe, expect, test } from 'vitest';
import { LibraryUnderTest, SESSION } from '../../support/host/folders/library-folder.ts';

const DAY = 24 * 60 * 60 * 1000;

let shelf: LibraryUnderTest;
beforeEach(() => (shelf = new LibraryUnderTest()));

const create = (name: string, text = SESSION) => shelf.get({ do: 'create', kind: 'session', name, text });

describe('[library] a session', () => {
  test('is a plain text file under its name, on the disk before the answer', async () => {
    const { name, version } = await create('Thursday masters');
    expect(name).toBe('Thursday masters');
    expect(shelf.text(name)).toBe(SESSION);
    expect(Buffer.from(shelf.disk.safe.get(shelf.path(name))!).toString()).toBe(SESSION);
    const text = `${SESSION}100 easy\n`;
    const saved = await shelf.get({ do: 'save', kind: 'session', name, text, version });
    expect(saved.version).not.toBe(version);
    expect(Buffer.from(shelf.disk.safe.get(shelf.path(name))!).toString()).toBe(text);
    expect(await shelf.get({ do: 'read', kind: 'session', name })).toMatchObject({
      name,
      text,
      version: saved.version,
    });
  });

  test('under a taken name gets a number; a name that differs only in case counts as taken', async () => {
    await create('Thursday masters');
    expect((await create('Thursday masters')).name).toBe('Thursday masters (2)');
    expect((await create('THURSDAY masters')).name).toBe('THURSDAY masters (3)');
  });

  test('does not overwrite a file that another program puts there just then', async () => {
    await create('Tuesday');
    shelf.disk.beforeChange = () => {
      shelf.disk.beforeChange = () => undefined;
      shelf.write('Friday', 'theirs');
    };
    expect((await create('Friday', 'mine')).name).toBe('Friday (2)');
    expect([shelf.text('Friday'), shelf.text('Friday (2)')]).toEqual(['theirs', 'mine']);
  });

  test('can be renamed, also to other capitals, but not over another session', async () => {
    await create('Tuesday');
    await create('thursday');
    expect(await shelf.get({ do: 'rename', kind: 'session', name: 'thursday', to: '  Thursday ' })).toMatchObject({
      name: 'Thursday',
    });
    expect(await shelf.ask({ do: 'rename', kind: 'session', name: 'Thursday', to: 'tuesday' })).toEqual({
      ok: false,
      why: 'There is one called tuesday already: choose another name, or rename that one first.',
    });
    expect(
      await shelf.get({ do: 'rename', kind: 'session', name: 'Thursday', to: 'Tuesday', near: true }),
    ).toMatchObject({ name: 'Tuesday (2)' });
    expect(await shelf.ask({ do: 'rename', kind: 'session', name: 'gone', to: 'x' })).toMatchObject({ ok: false });
    expect([...(await shelf.names())].sort()).toEqual(['Tuesday', 'Tuesday (2)']);
  });

  test('is not renamed over another that differs in capitals alone, as other programs make them', async () => {
    shelf.write('Tuesday', 'one');
    shelf.write('tuesday', 'two');
    for (const to of ['tuesday', 'TUESDAY']) {
      expect(await shelf.ask({ do: 'rename', kind: 'session', name: 'Tuesday', to })).toMatchObject({ ok: false });
    }
    const named = await shelf.get({ do: 'rename', kind: 'session', name: 'Tuesday', to: 'Tuesday', near: true });
    expect(named.name).toBe('Tuesday');
    expect([shelf.text('Tuesday'), shelf.text('tuesday')]).toEqual(['one', 'two']);
  });
});

describe('[library] the list', () => {
  test('has title, day, distance and length, or the reason why a text has none', async () => {
    await create('Thursday');
    await create('Broken', 'Harbour\nMain set\n8 x\n4 y\n');
    await create('Endless', 'Long\nSet\n100 rounds\n  50 x 25 @ 0:30\n');
    shelf.disk.put(shelf.path('Film'), Uint8Array.from([0xff, 0xd8, 0xff]));
    const { sessions } = await shelf.get({ do: 'list', find: '', most: 100 });
    const facts = Object.fromEntries(
      sessions.map(({ name, title, day, figures, note }) => [name, { title, day, figures, note }]),
    );
    expect(facts).toEqual({
      Thursday: {
        title: 'Harbour squad, Thursday',
        day: '2026-11-26',
        figures: { least: 6000, most: 8000, unit: 'm', duration: 12 * 60_000 + 15_000, isEstimate: false },
        note: null,
      },
      Broken: { title: 'Harbour', day: null, figures: null, note: '2 faults' },
      Endless: { title: 'Long', day: null, figures: null, note: 'very long' },
      Film: { title: null, day: null, figures: null, note: 'no plain text' },
    });
  });

  test('has the last opened or changed first, also after a restart', async () => {
    for (const name of ['one', 'two', 'three']) {
      await create(name);
      shelf.pass(1000);
    }
    expect(await shelf.names()).toEqual(['three', 'two', 'one']);
    await shelf.get({ do: 'read', kind: 'session', name: 'one' });
    expect(await shelf.names()).toEqual(['one', 'three', 'two']);
    await shelf.get({ do: 'rename', kind: 'session', name: 'one', to: 'first' });
    shelf.restart();
    expect(await shelf.names()).toEqual(['first', 'three', 'two']);
  });

  test('is searched by name, words and day, whatever the case and accents; all words have to match', async () => {
    await create('Größe und Länge');
    await create('Sprint', SESSION.replace('free', 'butterfly').replace('26 November', '3 December'));
    expect(await shelf.names('grosse')).toEqual(['Größe und Länge']);
    expect(await shelf.names('große lange')).toEqual(['Größe und Länge']);
    expect(await shelf.names('BUTTER')).toEqual(['Sprint']);
    expect(await shelf.names('free')).toEqual(['Größe und Länge']);
    for (const day of ['2026-12-03', '3 dec', 'december 2026']) expect(await shelf.names(day), day).toEqual(['Sprint']);
    expect(await shelf.names('butterfly november')).toEqual([]);
  });

  test('finds a session without a date by the day on which it was changed', async () => {
    await create('Sprint', 'Sprint\nSet\n4 x 25 @ 1:00\n');
    expect(await shelf.names('2026-11-26')).toEqual(['Sprint']);
  });

  test('has as many as are asked for, and says how many more there are', async () => {
    for (let n = 0; n < 7; n++) await create(`Session ${n}`);
    const { sessions, more } = await shelf.get({ do: 'list', find: 'session', most: 3 });
    expect([sessions.length, more]).toEqual([3, 4]);
  });

  test('shows what another program adds, changes and removes', async () => {
    await create('mine');
    expect(await shelf.names()).toEqual(['mine']);
    shelf.write('theirs', SESSION);
    expect([...(await shelf.names())].sort()).toEqual(['mine', 'theirs']);
    shelf.write('theirs', SESSION.replace('free', 'kick'));
    expect(await shelf.names('kick')).toEqual(['theirs']);
    shelf.disk.takeAway(shelf.path('mine'));
    expect(await shelf.names()).toEqual(['theirs']);
  });

  test('is the same for several who ask at once', async () => {
    await create('mine');
    await shelf.names();
    shelf.write('theirs', SESSION);
    const both = await Promise.all([shelf.names(), shelf.names()]);
    expect(both.map((names) => names.length)).toEqual([2, 2]);
  });

  test('reads only files that have changed', async () => {
    for (let n = 0; n < 20; n++) await create(`Session ${n}`);
    await shelf.names();
    const before = shelf.disk.bytesRead;
    shelf.write('Session 3', 'kick');
    await shelf.names('kick');
    expect(shelf.disk.bytesRead - before).toBe(4);
  });

  test('is read from the folder each time if the system cannot report changes', async () => {
    shelf.disk.watch = () => null;
    await create('mine');
    await shelf.names();
    shelf.write('theirs', SESSION);
    expect(await shelf.names()).toHaveLength(2);
  });
});

describe('[library] a file that another program has changed', () => {
  test('is noticed, and not overwritten without asking', async () => {
    const { name, version } = await create('Thursday');
    expect(await shelf.get({ do: 'look', kind: 'session', name, version })).toMatchObject({ same: true });
    shelf.write(name, 'theirs');
    expect(await shelf.get({ do: 'look', kind: 'session', name, version })).toMatchObject({ now: { text: 'theirs' } });
    const save = { do: 'save', kind: 'session', name, text: 'mine', version } as const;
    expect(await shelf.ask(save)).toMatchObject({ ok: false, changed: { now: { text: 'theirs' } } });
    expect(shelf.text(name)).toBe('theirs');
  });

  test('between the look and the writing is not overwritten either', async () => {
    const { name, version } = await create('Thursday');
    shelf.disk.beforeChange = () => {
      shelf.disk.beforeChange = () => undefined;
      shelf.write(name, 'theirs');
    };
    const answer = await shelf.ask({ do: 'save', kind: 'session', name, text: 'mine', version });
    expect(answer).toMatchObject({ ok: false, changed: { now: { text: 'theirs' } } });
    expect(shelf.text(name)).toBe('theirs');
  });

  test('goes into the bin if it is overwritten after asking', async () => {
    const { name, version } = await create('Thursday');
    shelf.write(name, 'theirs');
    await shelf.get({ do: 'save', kind: 'session', name, text: 'mine', version, over: true });
    expect(shelf.text(name)).toBe('mine');
    const { binned } = await shelf.get({ do: 'bin' });
    await shelf.get({ do: 'put-back', id: binned[0]!.id });
    expect(shelf.text('Thursday (2)')).toBe('theirs');
  });

  test('and that is gone is reported, and can be saved again', async () => {
    const { name, version } = await create('Thursday');
    shelf.disk.takeAway(shelf.path(name));
    const save = { do: 'save', kind: 'session', name, text: 'mine', version } as const;
    expect(await shelf.ask(save)).toMatchObject({ ok: false, changed: { now: null } });
    expect(shelf.text(name)).toBeNull();
    await shelf.get({ ...save, over: true });
    expect(shelf.text(name)).toBe('mine');
  });

  test('without changing its text does not count as changed', async () => {
    const { name, version } = await create('Thursday');
    shelf.write(name, SESSION);
    await shelf.get({ do: 'save', kind: 'session', name, text: 'mine', version });
    expect(shelf.text(name)).toBe('mine');
  });
});

describe('[library] a disk that refuses', () => {
  test.each([
    ['ENOSPC', 'the disk is full'],
    ['EROFS', 'the disk is read-only'],
    ['EACCES', 'this user may not read or write it'],
  ])('with %s: a sentence says so, and the old text stays', async (code, reason) => {
    const { name, version } = await create('Thursday');
    shelf.disk.refuses = code;
    const answer = await shelf.ask({ do: 'save', kind: 'session', name, text: 'mine', version });
    expect(answer).toEqual({
      ok: false,
      why: `Thursday.txt is not saved (${reason}): see to the folder /data. What you typed is kept in this window.`,
    });
    expect(shelf.text(name)).toBe(SESSION);
    shelf.disk.refuses = null;
    await shelf.get({ do: 'save', kind: 'session', name, text: 'mine', version });
    expect(shelf.text(name)).toBe('mine');
  });

  test('a new text on a full disk: no half file is left', async () => {
    shelf.disk.room = 10;
    expect(await shelf.ask({ do: 'create', kind: 'session', name: 'Thursday', text: SESSION })).toMatchObject({
      ok: false,
      why: expect.stringContaining('the disk is full') as string,
    });
    expect(await shelf.names()).toEqual([]);
  });

  test('to read: the file is listed, and opening it says why', async () => {
    shelf.write('Thursday', SESSION);
    shelf.disk.unreadable.set(shelf.path('Thursday'), 'EACCES');
    expect((await shelf.get({ do: 'list', find: '', most: 9 })).sessions[0]).toMatchObject({ note: 'cannot be read' });
    expect(await shelf.ask({ do: 'read', kind: 'session', name: 'Thursday' })).toEqual({
      ok: false,
      why: 'Thursday.txt cannot be reached (this user may not read or write it): see to the folder /data.',
    });
  });
});

describe('[library] the bin', () => {
  test('has the discarded texts, the latest first, and puts one back under its name', async () => {
    await create('Tuesday');
    await create('Thursday');
    const { id } = await shelf.get({ do: 'discard', kind: 'session', name: 'Tuesday' });
    shelf.pass(1000);
    await shelf.get({ do: 'discard', kind: 'session', name: 'Thursday' });
    expect(await shelf.names()).toEqual([]);
    shelf.restart();
    const { binned } = await shelf.get({ do: 'bin' });
    expect(binned.map(({ name }) => name)).toEqual(['Thursday', 'Tuesday']);
    expect(await shelf.get({ do: 'put-back', id })).toMatchObject({ kind: 'session', name: 'Tuesday' });
    expect(shelf.text('Tuesday')).toBe(SESSION);
    expect(await shelf.ask({ do: 'put-back', id })).toEqual({ ok: false, why: 'That is not in the bin any more.' });
  });

  test('keeps two of one name apart, and puts one back beside a text that has taken the name', async () => {
    await create('Tuesday', 'one');
    const first = await shelf.get({ do: 'discard', kind: 'session', name: 'Tuesday' });
    await create('Tuesday', 'two');
    await shelf.get({ do: 'discard', kind: 'session', name: 'Tuesday' });
    await create('tuesday', 'three');
    expect(await shelf.get({ do: 'put-back', id: first.id })).toMatchObject({ name: 'Tuesday (2)' });
    expect(shelf.text('Tuesday (2)')).toBe('one');
    expect(shelf.text('tuesday')).toBe('three');
  });

  test('keeps texts for 30 days, and removes nothing that somebody else put there', async () => {
    await create('Tuesday');
    const { id } = await shelf.get({ do: 'discard', kind: 'session', name: 'Tuesday' });
    shelf.disk.put('/data/bin/sessions/letter to the pool.txt', Buffer.from('Dear pool'));
    shelf.pass(30 * DAY);
    expect((await shelf.get({ do: 'bin' })).binned).toHaveLength(1);
    shelf.pass(1);
    expect((await shelf.get({ do: 'bin' })).binned).toEqual([]);
    expect(await shelf.ask({ do: 'put-back', id })).toMatchObject({ ok: false });
    expect([...shelf.disk.files.keys()]).toContain('/data/bin/sessions/letter to the pool.txt');
  });
});

test('[library] parts and sets are kept apart from sessions, with their first lines', async () => {
  const text = 'Kick ladder\n100-200-300-200-100 @ base+20\n';
  await shelf.get({ do: 'create', kind: 'piece', name: 'Kick ladder', text });
  expect(shelf.text('Kick ladder', 'piece')).toBe(text);
  const { sessions, pieces } = await shelf.get({ do: 'list', find: 'ladder', most: 9 });
  expect(sessions).toEqual([]);
  expect(pieces).toMatchObject([{ name: 'Kick ladder', note: 'Kick ladder, 100-200-300-200-100 @ base+20' }]);
  const { id } = await shelf.get({ do: 'discard', kind: 'piece', name: 'Kick ladder' });
  expect(await shelf.get({ do: 'put-back', id })).toMatchObject({ kind: 'piece', name: 'Kick ladder' });
});
