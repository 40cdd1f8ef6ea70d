/*
 * What becomes of a session file that somebody opens with the program.
 */

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { openFile } from '../../../app/desktop/startup/opened-file.ts';
import { DeckHost } from '../../../app/host/deck/deck-host.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { JournalInMemory } from '../../support/host/folders/journal-in-memory.ts';

describe('[desktop] a session file that is opened', () => {
  const folder = freshDataFolder();
  const clock = new FakeClock();
  const newHost = () =>
    new DeckHost({ clock, timers: clock.timers, journal: new JournalInMemory(), newId: () => 'run' });
  const file = (name: string, text: string | Buffer): string => {
    writeFileSync(join(folder, name), text);
    return join(folder, name);
  };

  test('runs at once, with its lanes', async () => {
    const host = newHost();
    const session = file('a.lanecall', 'Main set\n4 x 50 free @ 1:00');
    expect(await openFile(host, session, file('lanes.txt', 'lane 1 css 1:20\nlane 2 css 1:30'))).toBeNull();
    expect(host.current()?.state.lanes).toHaveLength(2);
  });

  test('with faults goes into the editor, and says so', async () => {
    const host = newHost();
    const sent = await openFile(host, file('b.txt', 'Main set\n4 x 50 free @ 0:61'), null);
    expect(sent).toMatchObject({
      name: 'b.txt',
      text: 'Main set\n4 x 50 free @ 0:61',
      why: expect.stringContaining('faults') as unknown,
    });
    expect(host.current()).toBeNull();
  });

  test('never takes the place of a run that is going', async () => {
    const host = newHost();
    await openFile(host, file('c.txt', 'Main set\n4 x 50 free @ 1:00'), null);
    await host.command('x', { do: 'start' });
    const sent = await openFile(host, file('d.txt', 'Main set\n8 x 50 free @ 1:00'), null);
    expect(sent?.why).toContain('d.txt is in the editor');
    expect(host.current()?.state.plan.source.text).toContain('4 x 50');
  });

  test('whose lanes cannot be read is not opened, and the lanes are named', async () => {
    const host = newHost();
    const session = file('g.txt', 'Main set\n4 x 50 free @ 1:00');
    expect(await openFile(host, session, join(folder, 'lanes-away.txt'))).toEqual({
      name: 'g.txt',
      text: null,
      lanesText: null,
      why: 'lanes-away.txt: there is no such file.',
    });
    expect(host.current()).toBeNull();
  });

  test.each<[string, () => string, RegExp]>([
    ['is not there', () => join(folder, 'missing.txt'), /^missing\.txt: there is no such file\.$/],
    ['is a folder', () => folder, /is a folder/],
    ['is no text', () => file('e.txt', Buffer.from([0x41, 0xff])), /not UTF-8/],
    ['is too long', () => file('f.txt', 'x'.repeat(300 * 1024)), /256 KiB/],
  ])('that %s is said to be so', async (_, path, why) => {
    expect(await openFile(newHost(), path(), null)).toMatchObject({
      text: null,
      why: expect.stringMatching(why) as unknown,
    });
  });
});
