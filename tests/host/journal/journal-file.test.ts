/* The journal on a fake disk: what stands in it and when, full and read-only disks, and its end. */

import { describe, expect, test } from 'vitest';
import { leavesOf } from '../../../app/core/run/record.ts';
import { settle } from '../../../app/core/run/settle.ts';
import { JOURNAL_VERSION, readLine, type JournalEntry } from '../../../app/host/journal/journal-line.ts';
import { goingDeck, JournalledDeck, restarted, settled } from '../../support/host/deck/journalled-deck.ts';

const TEXT = `Harbour squad
start on 1
lane 1 base 1:00, 3 swimmers
lane 2 base 1:00

Main set
4 x 50 free @ 0:40/0:45
`;

async function opened() {
  const { deck } = await JournalledDeck.start();
  await deck.open(TEXT);
  return { deck, ...deck };
}

const entries = (deck: JournalledDeck, path = deck.path()): JournalEntry[] =>
  deck.disk
    .text(path)
    .split('\n')
    .slice(0, -1)
    .map((line) => readLine(line)!.entry);

const says = (deck: JournalledDeck): string[] => entries(deck).map(({ say }) => say);

describe('[journal] what stands in it', () => {
  test('the first line has the text, the phase and all clocks; every line is JSON and whole', async () => {
    const { deck } = await opened();
    await deck.host.command('a', { do: 'start' });
    await deck.pass(12_000);
    expect(entries(deck)[0]).toMatchObject({
      say: 'opened',
      journal: JOURNAL_VERSION,
      run: 'run-1',
      text: TEXT,
      lanesText: null,
      clockPhase: 0,
      openedAtTimeOfDay: 19.5 * 3_600_000,
      at: 0,
      mono: 1_000_000,
      uptime: 1_000_000,
      wall: 19.5 * 3_600_000,
      boot: 'boot-1',
    });
    for (const line of deck.disk.text(deck.path()).trimEnd().split('\n')) {
      expect(Object.keys(JSON.parse(line) as object).pop()).toBe('sum');
    }
    expect(entries(deck)).not.toContain(null);
  });

  test('a command is on the disk when it is answered', async () => {
    const { deck } = await opened();
    const path = deck.path();
    await deck.host.command('a', { do: 'start' });
    expect(new TextDecoder().decode(deck.disk.safe.get(path))).toContain('"id":"a"');
    expect(deck.disk.safe.get(path)).toEqual(deck.disk.files.get(path));
  });

  test('a line that comes just as the one before has been written is written without waiting for a third', async () => {
    const { deck } = await opened();
    const append = (id: string) =>
      deck.journal.append({ run: 'run-1', id, at: 0, fields: { do: 'mark' }, ...deck.clock.instant() });
    await append('a').inFile;
    await append('b').safe;
    expect(says(deck)).toEqual(['opened', 'command', 'command']);
  });

  test('commands that come together are synced together', async () => {
    const { deck } = await opened();
    const before = deck.disk.syncs;
    await Promise.all(['a', 'b', 'c'].map((id) => deck.host.command(id, { do: 'mark', words: id })));
    expect(entries(deck).flatMap((entry) => (entry.say === 'command' ? [entry.id] : []))).toEqual(['a', 'b', 'c']);
    expect(deck.disk.syncs - before).toBeLessThanOrEqual(3);
  });

  test('signs of life are written at each leave and every five seconds, and nobody waits for them', async () => {
    const { deck } = await opened();
    await deck.host.command('a', { do: 'start' });
    const { syncs } = deck.disk;
    await deck.pass(60_000);
    const signs = entries(deck).filter((entry) => entry.say === 'alive');
    expect(signs.flatMap(({ leaves }) => leaves.map(([lane, at]) => [lane, at]))).toEqual([
      [1, 10_000],
      [2, 10_000],
      [1, 50_000],
      [2, 55_000],
    ]);
    signs.slice(1).forEach(({ at }, index) => expect(at - signs[index]!.at).toBeLessThanOrEqual(5002));
    expect(deck.disk.syncs).toBe(syncs);
  });

  test('it is closed ten seconds after the run is done, when nothing can be undone, and nothing is written after that', async () => {
    const { deck } = await opened();
    await deck.host.command('a', { do: 'start' });
    await deck.pass(30_000);
    await deck.host.command('b', { do: 'finish' });
    await deck.pass(9000);
    expect(says(deck)).not.toContain('closed');
    await deck.pass(10_000);
    const { length } = entries(deck);
    expect(entries(deck)[length - 1]).toMatchObject({ say: 'closed', why: 'done' });
    await deck.pass(60_000);
    expect(entries(deck)).toHaveLength(length);
  });

  test('a mark after the end is followed by a closing line of its own', async () => {
    const { deck } = await opened();
    await deck.host.command('b', { do: 'finish' });
    await deck.pass(20_000);
    await deck.host.command('c', { do: 'mark', words: 'all out' });
    expect(says(deck).slice(-3)).toEqual(['closed', 'command', 'closed']);
  });

  test('opening another run closes the journal, and the other run has its own file', async () => {
    const { deck } = await opened();
    const first = deck.path();
    await deck.host.command('a', { do: 'start' });
    await deck.pass(20_000);
    await deck.open(TEXT);
    await settled();
    expect(entries(deck, first).pop()).toMatchObject({ say: 'closed', why: 'replaced', at: 20_000 });
    expect(deck.disk.files.size).toBe(2);
  });
});

describe('[journal] a disk that refuses', () => {
  test.each(['ENOSPC', 'EROFS', 'EIO'])('%s: commands go on, the warning lasts until all is written', async (code) => {
    const { deck } = await opened();
    deck.disk.refuses = code;
    for (const id of ['a', 'b'])
      expect(await deck.host.command(id, { do: 'mark', words: id })).toMatchObject({ ok: true });
    await deck.pass(30_000);
    expect(deck.host.snapshot().notices).toEqual([expect.stringMatching(/not on the disk.*would not survive a crash/)]);
    expect(says(deck)).not.toContain('command');
    deck.disk.refuses = null;
    await deck.pass(2000);
    expect(deck.host.snapshot().notices).toEqual([]);
    expect(entries(deck).flatMap((entry) => (entry.say === 'command' ? [entry.id] : []))).toEqual(['a', 'b']);
    expect(deck.disk.safe.get(deck.path())).toEqual(deck.disk.files.get(deck.path()));
  });

  test('a disk that is full in the middle of a line leaves no half line before the next', async () => {
    const { deck } = await opened();
    deck.disk.room = 70;
    await deck.host.command('a', { do: 'mark', words: 'a long word about a cramp in lane 4' });
    await deck.pass(10_000);
    expect(deck.host.snapshot().notices).toHaveLength(1);
    deck.disk.room = Infinity;
    await deck.host.command('b', { do: 'mark' });
    expect(deck.host.snapshot().notices).toEqual([]);
    expect(entries(deck)).not.toContain(null);
    expect(says(deck).filter((say) => say === 'command')).toHaveLength(2);
  });

  test('a file that cannot be created is created later, and has every line', async () => {
    const { deck } = await JournalledDeck.start();
    deck.disk.refuses = 'EROFS';
    await deck.open(TEXT);
    await deck.host.command('a', { do: 'start' });
    await deck.open(TEXT);
    await deck.host.command('b', { do: 'start' });
    expect(deck.disk.files.size).toBe(0);
    deck.disk.refuses = null;
    await deck.pass(2000);
    const [first, second] = [...deck.disk.files.keys()].sort();
    expect(entries(deck, first).map(({ say }) => say)).toEqual(['opened', 'command', 'closed']);
    expect(
      entries(deck, second)
        .map(({ say }) => say)
        .slice(0, 2),
    ).toEqual(['opened', 'command']);
  });

  test('a slow disk delays nothing; the warning goes when it has caught up', async () => {
    const { deck } = await opened();
    let release = (): void => undefined;
    deck.disk.held = new Promise((resolve) => (release = resolve));
    const answer = deck.host.command('a', { do: 'start' });
    await settled();
    await deck.pass(101);
    expect(await answer).toMatchObject({ ok: true, at: 0 });
    expect(deck.host.snapshot().notices).toHaveLength(1);
    release();
    await settled();
    expect(deck.host.snapshot().notices).toEqual([]);
  });

  test('[R1] on a slow disk, commands given together are all carried out before a later leave is called', async () => {
    const { deck } = await opened();
    await deck.host.command('s', { do: 'start' });
    await deck.pass(50_000 - 350);
    deck.disk.held = new Promise(() => undefined);
    for (const id of ['a', 'b', 'c']) void deck.host.command(id, { do: 'mark', words: id });
    // Lane 1 leaves at 50 s: in 350 ms, which is soon enough to be stopped.
    void deck.host.command('d', { do: 'stop', lanes: [1] });
    for (let ms = 0; ms < 110; ms++) await deck.pass(1);
    expect(deck.host.snapshot().run!.commands.map(({ at }) => at)).toEqual([0, 49_650, 49_650, 49_650, 49_650]);
    await deck.pass(5000);
    expect(leavesOf(settle(deck.host.current()!.state, 60_000), 45_000).map(({ lane }) => lane)).toEqual([2]);
  });
});

describe('[journal] a disk whose syncs hang', () => {
  /** A run on a disk that hangs from now on, until what is returned is called. */
  async function hanging() {
    const { deck } = await opened();
    await deck.host.command('start', { do: 'start' });
    await deck.pass(1000);
    let release = (): void => undefined;
    deck.disk.held = new Promise((resolve) => (release = resolve));
    return { deck, path: deck.path(), release: () => release() };
  }

  test('every acknowledged command is in the file, so that it survives a kill of the process', async () => {
    const { deck, path } = await hanging();
    const acknowledged: string[] = [];
    for (let index = 0; index < 40; index++) {
      const id = `mark-${index}`;
      void deck.host.command(id, { do: 'mark' }).then(({ ok }) => ok && acknowledged.push(id));
      for (let ms = 0; ms < 7; ms++) await deck.pass(1);
      const written = entries(deck, path).flatMap((entry) => (entry.say === 'command' ? [entry.id] : []));
      expect(written).toEqual(['start', ...written.slice(1)]);
      for (const known of acknowledged) expect(written).toContain(known);
    }
    expect(acknowledged.length).toBeGreaterThan(1);
    deck.kill();
    deck.disk.held = Promise.resolve();
    const { recovery } = await restarted(deck);
    const found = recovery.found!.commands.map(({ id }) => id);
    for (const known of acknowledged) expect(found).toContain(known);
  });

  test('a command that waited for another is acknowledged once it is in the file too, within 200 ms whatever the disk does', async () => {
    const { deck, path, release } = await hanging();
    const answered: string[] = [];
    const give = (id: string) => void deck.host.command(id, { do: 'mark' }).then(() => answered.push(id));
    const passBy = async (time: number) => {
      for (let ms = 0; ms < time; ms++) await deck.pass(1);
    };
    give('a');
    give('b');
    await settled();
    let write = (): void => undefined;
    deck.disk.writesHeld = new Promise((resolve) => (write = resolve));
    await passBy(150);
    expect(answered).toEqual(['a']);
    write();
    await passBy(1);
    expect(answered).toEqual(['a', 'b']);
    expect(entries(deck, path).pop()).toMatchObject({ id: 'b' });
    deck.disk.writesHeld = new Promise(() => undefined);
    give('c');
    await passBy(199);
    expect(answered).toHaveLength(2);
    await passBy(2);
    expect(answered).toEqual(['a', 'b', 'c']);
    release();
  });

  test('only one sync runs at a time, and the next covers everything written meanwhile', async () => {
    const { deck, path, release } = await hanging();
    const { syncs } = deck.disk;
    const answers = ['a', 'b', 'c', 'd'].map((id) => deck.host.command(id, { do: 'mark', words: id }));
    for (let ms = 0; ms < 110; ms++) await deck.pass(1);
    expect(deck.host.snapshot().notices).toHaveLength(1);
    expect(deck.disk.syncs).toBe(syncs);
    release();
    expect((await Promise.all(answers)).every(({ ok }) => ok)).toBe(true);
    await settled();
    expect(deck.disk.syncs - syncs).toBeLessThanOrEqual(2);
    expect(deck.disk.safe.get(path)).toEqual(deck.disk.files.get(path));
    expect(deck.host.snapshot().notices).toEqual([]);
  });

  test('bytes that a failed sync may have dropped are written again before they count as safe', async () => {
    const { deck } = await opened();
    const path = deck.path();
    deck.disk.unsyncable = 'EIO';
    await deck.host.command('a', { do: 'mark' });
    await deck.host.command('b', { do: 'mark' });
    expect(deck.host.snapshot().notices).toEqual([expect.stringMatching(/not on the disk \(the disk is failing\)/)]);
    // As some systems do: what could not be made safe is dropped, and reads as it was before.
    const written = deck.disk.text(path);
    deck.disk.files.set(path, new Uint8Array(written.length).fill(0));
    deck.disk.files.get(path)!.set(deck.disk.safe.get(path)!);
    deck.disk.unsyncable = null;
    await deck.pass(1100);
    expect(deck.disk.text(path).startsWith(written)).toBe(true);
    expect(deck.disk.safe.get(path)).toEqual(deck.disk.files.get(path));
    expect(deck.host.snapshot().notices).toEqual([]);
  });
});

describe('[journal] the first line of a run that has come back', () => {
  /** A host that is started on a disk whose syncs hang, and whether it is there by now. */
  async function starting() {
    const deck = await goingDeck();
    deck.kill();
    let release = (): void => undefined;
    deck.disk.held = new Promise((resolve) => (release = resolve));
    let isThere = false;
    const started = restarted(deck).finally(() => (isThere = true));
    await settled();
    const pass = async (ms: number): Promise<void> => {
      deck.clock.advance(ms);
      await settled();
    };
    return { started, release, pass, isThere: () => isThere };
  }

  test('is waited for up to two seconds, so that the first commands find the file ready', async () => {
    const { started, release, pass, isThere } = await starting();
    await pass(1900);
    expect(isThere()).toBe(false);
    release();
    const { deck } = await started;
    expect(deck.host.snapshot().notices.join(' ')).not.toContain('the disk is slow');
  });

  test('does not keep a host from starting on a disk that hangs; the coach is told', async () => {
    const { started, pass } = await starting();
    await pass(2000);
    const { deck } = await started;
    expect(deck.host.snapshot().notices.join(' ')).toContain('the disk is slow');
  });
});
