/*
 * The sign of life before the machine sleeps: it is on the disk when the call returns.
 */

import { describe, expect, test } from 'vitest';
import { JournalFile } from '../../../app/host/journal/journal-file.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { FakeDisk } from '../../support/host/folders/fake-disk.ts';
import { FreeFolder } from '../../support/system/free-folder.ts';
import { on, planOf, set } from '../../support/coach/hand-session.ts';

const SOURCE = { text: 'Main set\n4 x 50 free @ 1:00', lanesText: null };

async function opened() {
  const disk = new FakeDisk();
  const clock = new FakeClock();
  const journal = new JournalFile({
    disk,
    folder: 'runs',
    boot: 'boot',
    timers: clock.timers,
    guard: new FreeFolder(),
    tell: () => undefined,
  });
  await journal.open({ run: 'r', source: SOURCE, clockPhase: 0, openedAtTimeOfDay: 0, ...clock.instant() }, null);
  const [path] = [...disk.files.keys()];
  const says = (of: Map<string, Uint8Array>) =>
    new TextDecoder()
      .decode(of.get(path!))
      .split('\n')
      .filter((line) => line !== '')
      .map((line) => (JSON.parse(line) as { say: string; at: number }).say);
  const sign = (run = 'r') => journal.signNow({ run, at: 1000, leaves: [], ...clock.instant() });
  return { disk, journal, clock, says, sign };
}

describe('[journal] before a sleep', () => {
  test('a sign of life is on the disk when the call returns, and the next line follows it', async () => {
    const { disk, journal, clock, says, sign } = await opened();
    sign();
    expect(says(disk.safe)).toEqual(['opened', 'alive']);
    await journal.append({ run: 'r', id: 'a', at: 2000, fields: { do: 'start' }, ...clock.instant() }).safe;
    expect(says(disk.safe)).toEqual(['opened', 'alive', 'command']);
  });

  test('a disk that refuses costs the sign of life and nothing else', async () => {
    const { disk, journal, clock, says, sign } = await opened();
    disk.room = 10;
    sign();
    disk.room = Infinity;
    await journal.append({ run: 'r', id: 'a', at: 2000, fields: { do: 'start' }, ...clock.instant() }).safe;
    expect(says(disk.safe)).toEqual(['opened', 'command']);
  });

  test('a sign of life waits while another line is being written', async () => {
    const { disk, journal, clock, says, sign } = await opened();
    const written = journal.append({ run: 'r', id: 'a', at: 500, fields: { do: 'start' }, ...clock.instant() }).safe;
    sign();
    expect(says(disk.files)).toEqual(['opened']);
    await written;
    await journal.end();
    expect(says(disk.files)).toEqual(['opened', 'command', 'alive']);
  });

  test('one sign of life holds more than a hundred thousand leaves after a long absence, before a sleep or not', async () => {
    const { disk, journal, clock } = await opened();
    const rep = planOf([set(1, 1, 50, { timing: on(60) })]).stretches[0]!.lanes[0]!.reps[0]!;
    const leave = { lane: 1, stretch: 0, rep, swimmers: 1, gap: 5000 };
    const leaves = Array.from({ length: 200_000 }, (_, index) => ({ ...leave, at: index }));
    journal.signNow({ run: 'r', at: 200_000, leaves, ...clock.instant() });
    journal.alive({ run: 'r', at: 400_000, leaves, ...clock.instant() });
    await journal.end();
    const [file] = [...disk.files.values()];
    const lines = new TextDecoder().decode(file).trimEnd().split('\n').slice(1);
    expect(lines.map((line) => (JSON.parse(line) as { leaves: unknown[] }).leaves.length)).toEqual([200_000, 200_000]);
  });

  test('nothing is written for another run or a closed one', async () => {
    const { disk, journal, clock, says, sign } = await opened();
    sign('other');
    await journal.close({ run: 'r', at: 1, why: 'done', ...clock.instant() });
    sign();
    expect(says(disk.files)).toEqual(['opened', 'closed']);
  });
});
