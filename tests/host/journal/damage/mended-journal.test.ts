/* A journal that is removed, moved, replaced or cut short while its run goes: it is noticed, told and written anew, whole. */

import {
  closeSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  truncateSync,
  writeFileSync,
  writeSync,
  utimesSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { runsFolder } from '../../../../app/host/lock/data-folder.ts';
import { systemDisk } from '../../../../app/host/journal/disk.ts';
import { JournalFile } from '../../../../app/host/journal/journal-file.ts';
import { readJournal } from '../../../../app/host/journal/journal-text.ts';
import { standingOf } from '../../../../app/host/journal/run-file.ts';
import { freshDataFolder } from '../../../support/host/folders/data-folder.ts';
import { FakeClock } from '../../../support/clock/fake-clock.ts';
import { FreeFolder } from '../../../support/system/free-folder.ts';
import {
  goingDeck,
  restarted,
  settled,
  SQUAD,
  type JournalledDeck,
} from '../../../support/host/deck/journalled-deck.ts';

const OTHER = Buffer.from('somebody else’s\n');

/** The same length, with other bytes near the beginning. */
function writtenOver(bytes: Uint8Array): Uint8Array {
  const other = bytes.slice();
  other.set(OTHER, 40);
  return other;
}

const asText = (bytes: Uint8Array | null | undefined) => bytes && new TextDecoder().decode(bytes);

/** What is kept is all that stood there. */
const WRITTEN_OVER = Symbol('written over');

/** How a file is harmed, the sentence that says so, and what is kept beside it. */
const HARMS: readonly (readonly [
  what: string,
  harm: (deck: JournalledDeck, path: string) => void,
  said: RegExp,
  kept: Uint8Array | typeof WRITTEN_OVER | null,
])[] = [
  ['removed', ({ disk }, path) => disk.takeAway(path), /was removed or moved away/, null],
  [
    'replaced by another',
    ({ disk }, path) => disk.put(path, OTHER),
    /was replaced by another file, which is kept/,
    OTHER,
  ],
  [
    'cut short',
    ({ disk }, path) => void disk.files.set(path, disk.files.get(path)!.slice(0, 300)),
    /was cut short/,
    null,
  ],
  [
    'written to by another program',
    ({ disk }, path) => void disk.files.set(path, Buffer.concat([disk.files.get(path)!, OTHER])),
    /was written to by another program, whose bytes are kept/,
    OTHER,
  ],
  [
    'written over in place, at the same length',
    ({ disk }, path) => void disk.files.set(path, writtenOver(disk.files.get(path)!)),
    /was written over by another program \(what it wrote is kept beside it\) while/,
    WRITTEN_OVER,
  ],
];

describe('[journal] a file that is harmed while it is open', () => {
  test.each(HARMS)(
    '%s: within five seconds it is whole again and the coach is told, as long as the run is open',
    async (...harm) => {
      const [, apply, said, kept] = harm;
      const deck = await goingDeck();
      const path = deck.path();
      const before = deck.disk.text(path);
      apply(deck, path);
      await deck.pass(5100);
      expect(deck.disk.text(path).startsWith(before)).toBe(true);
      const read = readJournal(deck.disk.files.get(path)!);
      expect(read).toMatchObject({ kind: 'journal', length: deck.disk.files.get(path)!.length });
      expect(deck.host.snapshot().notices).toEqual([expect.stringMatching(said)]);
      expect(deck.host.snapshot().notices[0]).toMatch(/Leave that folder alone while Lanecall is open\.$/);
      const expected = kept === WRITTEN_OVER ? Buffer.from(writtenOver(Buffer.from(before))) : kept;
      expect(asText(deck.disk.files.get(`${path}.torn`)) ?? null).toBe(asText(expected));
      await deck.open(SQUAD);
      expect(deck.host.snapshot().notices).toEqual([]);
    },
  );

  test.each(HARMS)(
    '%s: the very next command is on the disk when it is answered, and a restart finds them all',
    async (_, harm) => {
      const deck = await goingDeck();
      const path = deck.path();
      harm(deck, path);
      expect(await deck.host.command('c', { do: 'mark', words: 'there' })).toMatchObject({ ok: true });
      expect(new TextDecoder().decode(deck.disk.safe.get(path))).toContain('"id":"c"');
      deck.kill();
      const { recovery } = await restarted(deck);
      expect(recovery.found?.commands.map(({ id }) => id)).toEqual(['a', 'b', 'c']);
    },
  );

  test('that cannot be rewritten is reported until it can be, and then has every line', async () => {
    const deck = await goingDeck();
    const path = deck.path();
    deck.disk.takeAway(path);
    deck.disk.room = 40;
    await deck.host.command('c', { do: 'mark' });
    expect(deck.host.snapshot().notices.join(' ')).toContain('the disk is full');
    deck.disk.room = Infinity;
    await deck.pass(1100);
    expect(deck.host.snapshot().notices).toEqual([expect.stringContaining('was removed')]);
    deck.kill();
    expect((await restarted(deck)).recovery.found?.commands).toHaveLength(3);
  });

  test('is never read back while nobody else writes to it', async () => {
    const deck = await goingDeck();
    deck.disk.bytesRead = 0;
    await deck.pass(60_000);
    await deck.host.command('c', { do: 'mark' });
    expect(deck.disk.bytesRead).toBe(0);
  });

  test('is noticed when it is gone or cut short even on a disk that does not number files, and left alone when whole', async () => {
    const deck = await goingDeck();
    const path = deck.path();
    deck.disk.numbered = false;
    await deck.pass(20_000);
    expect(deck.host.snapshot().notices).toEqual([]);
    deck.disk.takeAway(path);
    await deck.pass(5100);
    expect(deck.host.snapshot().notices).toEqual([expect.stringContaining('was removed')]);
  });

  test('is not rewritten by a host that has lost the folder; the coach is told that nothing is kept', async () => {
    const deck = await goingDeck();
    const path = deck.path();
    deck.guard.taken = true;
    deck.disk.put(path, OTHER);
    await deck.host.command('c', { do: 'mark' });
    await deck.pass(20_000);
    expect(deck.disk.files.get(path)).toEqual(OTHER);
    expect(deck.host.snapshot().notices.join(' ')).toContain('another Lanecall has the folder');
  });

  test('is no longer mentioned once the folder is lost for good', async () => {
    const deck = await goingDeck();
    deck.disk.takeAway(deck.path());
    await deck.pass(5100);
    deck.disk.refuses = 'ENOSPC';
    await deck.host.command('c', { do: 'mark' });
    expect(deck.host.snapshot().notices).toHaveLength(2);
    deck.guard.taken = true;
    deck.host.recordLost('It is another’s.');
    expect(deck.host.snapshot().notices).toEqual(['It is another’s.']);
    await deck.host.command('d', { do: 'mark' });
    await deck.pass(20_000);
    await deck.open(SQUAD);
    expect(deck.host.snapshot().notices).toEqual(['It is another’s.']);
  });

  test('goes on in a new file if the host that had it may only be stopped', async () => {
    const deck = await goingDeck();
    const path = deck.path();
    deck.kill();
    const old = await deck.disk.open(path);
    const bytes = deck.disk.files.get(path)!;
    const { recovery, deck: again } = await restarted(deck);
    again.journal.takeUp(recovery.found!.run, recovery.found!.file, true);
    await again.host.command('c', { do: 'mark' });
    await old.write(OTHER, bytes.length);
    expect(again.disk.text(path)).not.toContain('somebody else');
    expect(again.disk.text(path)).toContain('"id":"c"');
  });

  test.each([
    ['the same', { id: 'a', length: 5 }, 'whole'],
    ['another number', { id: 'b', length: 5 }, 'another'],
    ['no number', { id: null, length: 5 }, 'whole'],
    ['no number, and shorter', { id: null, length: 4 }, 'shorter'],
    ['longer', { id: 'a', length: 6 }, 'longer'],
    ['nothing', null, 'gone'],
  ])('under its name stands %s', (_, named, standing) => {
    expect(standingOf({ id: 'a', length: 5 }, named, 5)).toBe(standing);
  });
});

describe('[journal] on the real disk', () => {
  async function going() {
    const data = freshDataFolder();
    const clock = new FakeClock();
    const said: (string | null)[] = [];
    const ports = { disk: systemDisk, boot: 'boot', timers: clock.timers, guard: new FreeFolder() };
    const journal = new JournalFile({ ...ports, folder: runsFolder(data), tell: (sentence) => said.push(sentence) });
    const source = { text: SQUAD, lanesText: null };
    await journal.open({ run: 'r', source, clockPhase: 0, openedAtTimeOfDay: 0, ...clock.instant() }, null);
    const append = (id: string) =>
      journal.append({ run: 'r', id, at: 1000, fields: { do: 'mark' }, ...clock.instant() }).safe;
    await append('a');
    const [name] = readdirSync(runsFolder(data));
    return { data, path: join(runsFolder(data), name!), journal, said, append };
  }

  test.each<readonly [string, (data: string, path: string) => void]>([
    ['a file that is removed', (_, path) => rmSync(path)],
    ['a file that is moved', (_, path) => renameSync(path, `${path}.away`)],
    [
      'a file that another is moved over',
      (_, path) => (writeFileSync(`${path}.x`, 'x'), renameSync(`${path}.x`, path)),
    ],
    ['a file that is cut short', (_, path) => truncateSync(path, 10)],
    [
      'a file that is written over in place',
      (_, path) => {
        const file = openSync(path, 'r+');
        writeSync(file, 'zz', 30);
        closeSync(file);
      },
    ],
    ['a folder in its place', (_, path) => (rmSync(path), mkdirSync(path))],
    ['a data folder that is removed', (data) => rmSync(data, { recursive: true })],
    ['a data folder that is moved', (data) => renameSync(data, `${data}.away`)],
    ['a data folder that another is put in place of', (data) => (renameSync(data, `${data}.away`), mkdirSync(data))],
  ])('%s: the next line finds the file whole again', async (_, harm) => {
    const { data, path, journal, said, append } = await going();
    const before = readFileSync(path, 'utf8');
    harm(data, path);
    await append('b');
    await journal.end();
    const text = readFileSync(path, 'utf8');
    expect(text.startsWith(before)).toBe(true);
    expect(readJournal(Buffer.from(text))).toMatchObject({ kind: 'journal', stop: null });
    expect(text).toContain('"id":"b"');
    expect(said.filter((sentence) => sentence !== null)).toHaveLength(1);
    rmSync(`${data}.away`, { recursive: true, force: true });
  });

  test('a file that is only touched is read back, found whole and left alone', async () => {
    const { path, journal, said, append } = await going();
    await append('b');
    utimesSync(path, 1, 1);
    await append('c');
    await journal.end();
    expect(said.filter((sentence) => sentence !== null)).toEqual([]);
    expect(readdirSync(dirname(path))).toHaveLength(1);
  });

  test('an untouched file is never said to have changed', async () => {
    const { journal, said, append } = await going();
    for (let line = 0; line < 50; line++) await append(`more ${line}`);
    await journal.end();
    await settled();
    expect(said.filter((sentence) => sentence !== null)).toEqual([]);
  });
});
