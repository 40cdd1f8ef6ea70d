/* Lines on their way to the disk: under which name, in which order, how often they are tried, and when all is over. */

import { beforeEach, describe, expect, test } from 'vitest';
import { JournalFile } from '../../../../app/host/journal/journal-file.ts';
import type { Leave } from '../../../../app/core/run/record.ts';
import { FakeClock } from '../../../support/clock/fake-clock.ts';
import { FakeDisk } from '../../../support/host/folders/fake-disk.ts';
import { FreeFolder } from '../../../support/system/free-folder.ts';
import { on, planOf, set } from '../../../support/coach/hand-session.ts';
import { settled } from '../../../support/host/deck/journalled-deck.ts';

const SOURCE = { text: 'Main set\n4 x 50 free @ 1:00', lanesText: null };
const REP = planOf([set(1, 1, 50, { timing: on(60) })]).stretches[0]!.lanes[0]!.reps[0]!;
const leave = (lane: number, at: number): Leave => ({ lane, at, stretch: 0, rep: REP, swimmers: 1, gap: 5000 });

let disk: FakeDisk;
let clock: FakeClock;
let journal: JournalFile;
let told: (string | null)[];

beforeEach(() => {
  disk = new FakeDisk();
  clock = new FakeClock({ now: 0, timeOfDay: Date.UTC(2026, 10, 5, 19, 30, 2) });
  told = [];
  const { timers } = clock;
  const tell = (sentence: string | null) => void told.push(sentence);
  journal = new JournalFile({ disk, folder: '/runs', boot: 'boot', timers, guard: new FreeFolder(), tell });
});

const open = (run = 'r', why: 'replaced' | null = null) => {
  const opening = { run, source: SOURCE, clockPhase: 0, openedAtTimeOfDay: 0, ...clock.instant() };
  return journal.open(opening, why && { run: 'r', at: 7000, why, ...clock.instant() });
};
const mark = (id: string) => journal.append({ run: 'r', id, at: 500, fields: { do: 'mark' }, ...clock.instant() }).safe;
const alive = (leaves: readonly Leave[], run = 'r') => journal.alive({ run, at: 1000, leaves, ...clock.instant() });
const sign = (leaves: readonly Leave[]) => journal.signNow({ run: 'r', at: 1000, leaves, ...clock.instant() });
const close = (run = 'r') => journal.close({ run, at: 1, why: 'done', ...clock.instant() });

interface Line {
  readonly say: string;
  readonly id?: string;
  readonly leaves?: unknown;
}

const lines = (path = [...disk.files.keys()][0]!): readonly Line[] =>
  disk
    .text(path)
    .split('\n')
    .slice(0, -1)
    .map((line) => JSON.parse(line) as Line);
const says = (path?: string) => lines(path).map(({ say, id }) => id ?? say);

describe('[journal] a file’s name', () => {
  test('begins with the time of opening, so that names sort by it', async () => {
    await open('a-run_1');
    expect([...disk.files.keys()]).toEqual(['/runs/2026-11-05T19-30-02Z-a-run_1.jsonl']);
  });

  test('has at most forty characters of the run’s id, only such as every file system allows', async () => {
    await open(`../é:${'x'.repeat(60)}`);
    expect([...disk.files.keys()]).toEqual([`/runs/2026-11-05T19-30-02Z-_____${'x'.repeat(35)}.jsonl`]);
  });
});

test('[journal] the first line of a run whose clock was matched has the time of the matching, with its fraction', async () => {
  const fields = { run: 'r', clockPhase: 7000, openedAtTimeOfDay: 5, at: 1234.5 };
  await journal.open({ ...fields, source: SOURCE, ...clock.instant() }, null);
  expect(lines()).toMatchObject([{ say: 'opened', ...fields, ...SOURCE }]);
});

describe('[journal] before a run is open, and after it is closed', () => {
  test('a command is refused with a reason, and a sign of life is dropped', async () => {
    await expect(mark('a')).rejects.toThrow('no journal is open');
    alive([]);
    sign([]);
    await close();
    await journal.end();
    expect(disk.files.size).toBe(0);
  });

  test('a run is closed once, and only under its own id', async () => {
    await open();
    await close('another');
    expect(says()).toEqual(['opened']);
    await close();
    await close();
    alive([leave(1, 0)]);
    await journal.end();
    expect(says()).toEqual(['opened', 'closed']);
  });

  test('a closed run is not closed again by the run that replaces it', async () => {
    await open();
    await close();
    await open('s', 'replaced');
    await journal.end();
    const [first, second] = [...disk.files.keys()];
    expect([says(first), says(second)]).toEqual([['opened', 'closed'], ['opened']]);
    expect(disk.openFiles).toBe(0);
  });

  test('the file of the run before is closed once the new one is on the disk', async () => {
    await open();
    await open('s', 'replaced');
    await settled();
    const [first] = [...disk.files.keys()];
    expect(says(first)).toEqual(['opened', 'closed']);
    expect(disk.openFiles).toBe(1);
  });

  test('a notice about the file before goes when another run is opened', async () => {
    await open();
    await disk.remove([...disk.files.keys()][0]!);
    await mark('a');
    await open('s', 'replaced');
    expect(told).toEqual([null, expect.stringContaining('was removed'), null]);
  });
});

describe('[journal] signs of life', () => {
  test('do not wait: one that comes while a command is being written follows it', async () => {
    await open();
    let write = (): void => undefined;
    disk.writesHeld = new Promise((resolve) => (write = resolve));
    const safe = mark('a');
    await settled();
    alive([leave(1, 100)]);
    write();
    await safe;
    await settled();
    expect(says()).toEqual(['opened', 'a', 'alive']);
  });

  test('of another run are not written, not even before a sleep', async () => {
    await open();
    alive([leave(1, 0)], 'another');
    journal.signNow({ run: 'another', at: 1000, leaves: [], ...clock.instant() });
    await journal.end();
    expect(says()).toEqual(['opened']);
  });

  test('that come while one waits are merged with it: no leave is left out or doubled', async () => {
    await open();
    alive([leave(1, 100)]);
    alive([leave(2, 200)]);
    await settled();
    alive([leave(3, 300)]);
    await settled();
    expect(lines().map(({ leaves }) => leaves)).toEqual([
      undefined,
      [[1, 100]],
      [
        [2, 200],
        [3, 300],
      ],
    ]);
  });

  test('that cannot be written before a sleep pass their leaves on to the next', async () => {
    await open();
    disk.refuses = 'EIO';
    sign([leave(1, 100)]);
    disk.refuses = null;
    // Half a line may stand at the end of the file by now, which only an ordinary write takes away.
    sign([leave(2, 200)]);
    expect(says()).toEqual(['opened']);
    alive([leave(3, 300)]);
    await settled();
    sign([leave(4, 400)]);
    sign([leave(5, 500)]);
    expect(lines().map(({ leaves }) => leaves)).toEqual([
      undefined,
      [
        [1, 100],
        [2, 200],
        [3, 300],
      ],
      [[4, 400]],
      [[5, 500]],
    ]);
  });

  test('before a sleep wait for a line that is being written', async () => {
    await open();
    let write = (): void => undefined;
    disk.writesHeld = new Promise((resolve) => (write = resolve));
    const safe = mark('a');
    await settled();
    sign([leave(1, 100)]);
    expect(says()).toEqual(['opened']);
    write();
    await safe;
    await settled();
    expect(lines()).toMatchObject([{ say: 'opened' }, { id: 'a' }, { say: 'alive', leaves: [[1, 100]] }]);
  });

  test('may come while the file of the run before is being closed', async () => {
    await open();
    await close();
    await open('s', 'replaced');
    alive([leave(1, 100)], 's');
    await settled();
    expect(says([...disk.files.keys()][1])).toEqual(['opened', 'alive']);
  });

  test('that the disk refuses are not tried again and not reported', async () => {
    let caughtUp = 0;
    journal.onCaughtUp(() => caughtUp++);
    await open();
    disk.refuses = 'EIO';
    alive([leave(1, 100)]);
    await settled();
    expect(clock.pending).toBe(0);
    disk.refuses = null;
    await mark('a');
    expect(says()).toEqual(['opened', 'a']);
    expect(caughtUp).toBe(0);
  });

  test('are held back while commands wait for the disk, and come with all their leaves afterwards', async () => {
    await open();
    disk.refuses = 'EIO';
    await expect(mark('a')).rejects.toThrow('the disk is failing');
    alive([leave(1, 100)]);
    alive([leave(2, 200)]);
    disk.refuses = null;
    clock.advance(1000);
    await settled();
    expect(says()).toEqual(['opened', 'a']);
    alive([]);
    await settled();
    expect(lines()[2]).toMatchObject({
      leaves: [
        [1, 100],
        [2, 200],
      ],
    });
  });
});

describe('[journal] a disk that refuses', () => {
  test('is tried once a second with all that waits, until it accepts; then the coach is told once that all is well', async () => {
    let caughtUp = 0;
    journal.onCaughtUp(() => caughtUp++);
    await open();
    disk.refuses = 'ENOSPC';
    await expect(mark('a')).rejects.toThrow('the disk is full');
    await expect(mark('b')).rejects.toThrow('the disk is full');
    expect(clock.pending).toBe(1);
    disk.refuses = null;
    clock.advance(999);
    await settled();
    expect([says(), caughtUp]).toEqual([['opened'], 0]);
    clock.advance(1);
    await settled();
    expect([says(), caughtUp, clock.pending]).toEqual([['opened', 'a', 'b'], 1, 0]);
    await mark('c');
    expect(caughtUp).toBe(1);
  });

  test('that refuses a line while the one before is synced is tried again, and the notice stays until then', async () => {
    let caughtUp = 0;
    journal.onCaughtUp(() => caughtUp++);
    await open();
    let release = (): void => undefined;
    disk.held = new Promise((resolve) => (release = resolve));
    const refused = mark('a').catch(() => 'refused');
    await settled();
    disk.refuses = 'EIO';
    await expect(mark('b')).rejects.toThrow('the disk is failing');
    expect(await refused).toBe('refused');
    release();
    await settled();
    expect([says(), caughtUp]).toEqual([['opened', 'a'], 0]);
    disk.refuses = null;
    clock.advance(1000);
    await settled();
    expect([says(), caughtUp]).toEqual([['opened', 'a', 'b'], 1]);
  });

  test('that refuses only the sync is tried again, and the line is not written twice', async () => {
    await open();
    disk.unsyncable = 'EIO';
    await expect(mark('a')).rejects.toThrow('the disk is failing');
    disk.unsyncable = null;
    const { syncs } = disk;
    clock.advance(999);
    await settled();
    expect(disk.syncs).toBe(syncs);
    clock.advance(1);
    await settled();
    expect(disk.syncs).toBe(syncs + 1);
    expect(says()).toEqual(['opened', 'a']);
    expect(disk.safe.get([...disk.files.keys()][0]!)).toEqual([...disk.files.values()][0]);
  });
});

test('[journal] a line is made safe, at whatever stage of the line before it comes', async () => {
  await open();
  for (let turns = 0; turns < 40; turns++) {
    void mark(`before ${turns}`);
    for (let turn = 0; turn < turns; turn++) await Promise.resolve();
    let isSafe = false;
    void mark(`${turns}`).then(() => (isSafe = true));
    await settled();
    expect([turns, isSafe]).toEqual([turns, true]);
  }
});

describe('[journal] closing', () => {
  test('waits for what is being written and synced, and closes the file', async () => {
    await open();
    let release = (): void => undefined;
    disk.held = new Promise((resolve) => (release = resolve));
    const safe = mark('a');
    let over = false;
    const ending = journal.end().then(() => (over = true));
    await settled();
    expect(says()).toEqual(['opened', 'a']);
    expect(over).toBe(false);
    release();
    await Promise.all([safe, ending]);
    expect(disk.openFiles).toBe(0);
  });

  test('does not wait for a disk that refuses, and stops trying', async () => {
    await open();
    disk.refuses = 'EIO';
    await expect(mark('a')).rejects.toThrow('the disk is failing');
    await journal.end();
    expect(clock.pending).toBe(0);
    await expect(mark('b')).rejects.toThrow('no journal is open');
  });
});

describe('[journal] letting a file go', () => {
  test('succeeds once nothing is left to write, and closes the file', async () => {
    await open();
    let release = (): void => undefined;
    disk.held = new Promise((resolve) => (release = resolve));
    const safe = mark('a');
    let isGone: boolean | null = null;
    const letting = journal.letGo().then((answer) => (isGone = answer));
    await settled();
    expect(isGone).toBeNull();
    release();
    await Promise.all([safe, letting]);
    expect([isGone, disk.openFiles]).toEqual([true, 0]);
    await expect(mark('b')).rejects.toThrow('no journal is open');
  });

  test.each([
    ['written', () => (disk.refuses = 'EIO')],
    ['made safe', () => (disk.unsyncable = 'EIO')],
  ])('fails while a line could not be %s, and that is tried again', async (_, refuse) => {
    await open();
    refuse();
    await expect(mark('a')).rejects.toThrow('the disk is failing');
    expect(await journal.letGo()).toBe(false);
    disk.refuses = disk.unsyncable = null;
    clock.advance(1000);
    await settled();
    expect(disk.safe.get([...disk.files.keys()][0]!)).toEqual([...disk.files.values()][0]);
    expect([await journal.letGo(), says()]).toEqual([true, ['opened', 'a']]);
  });

  test('succeeds for a file that was never open', async () => {
    expect(await journal.letGo()).toBe(true);
  });
});

test('[journal] a file that was found is continued, with only the leaves still to come', async () => {
  await open();
  await journal.end();
  const [path, bytes] = [...disk.files][0]!;
  const before = await disk.facts(path);
  const sum = /"sum":"(.{8})"}\n$/.exec(disk.text(path))![1]!;
  const { timers } = clock;
  journal = new JournalFile({
    disk,
    folder: '/runs',
    boot: 'boot',
    timers,
    guard: new FreeFolder(),
    tell: () => undefined,
  });
  journal.takeUp('r', { path, bytes, sum, torn: null });
  alive([leave(1, 100)]);
  await settled();
  expect(lines().map(({ say, leaves }) => [say, leaves])).toEqual([
    ['opened', undefined],
    ['alive', [[1, 100]]],
  ]);
  expect((await disk.facts(path))!.id).toBe(before!.id);
});
