/* A host opened on a data folder: what it brings back, what it tells the coach, and how it gives the folder up. */

import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { openDeck, type OpenDeck } from '../../../app/host/deck/deck-opening.ts';
import { lockText } from '../../../app/host/lock/lock-file.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { settled } from '../../support/host/deck/journalled-deck.ts';
import { DONE, writeJournal } from '../../support/host/folders/written-journal.ts';

const DAY = 86_400_000;
const STARTED = [{ say: 'command', at: 1000, id: 'a', command: { do: 'start' } }] as const;
const HOUR = 'Tuesday\n\nMain\n4 x 50 @ 1:00\n';

let folder: string;
let clock: FakeClock;
let open: OpenDeck[];

beforeEach(() => {
  folder = freshDataFolder();
  clock = new FakeClock();
  open = [];
});
afterEach(async () => {
  vi.restoreAllMocks();
  for (const deck of open) await deck.close();
});

async function opened(data = folder): Promise<OpenDeck> {
  const opening = await openDeck(data, clock, clock.timers);
  if (!opening.ok) throw new Error(opening.why);
  open.push(opening.deck);
  // The first news of the screens has gone out.
  clock.advance(500);
  return opening.deck;
}

async function going(text = HOUR): Promise<OpenDeck> {
  const deck = await opened();
  await deck.host.open({ text, lanesText: null }, { replace: false });
  expect(await deck.host.command('go', { do: 'start' })).toMatchObject({ ok: true });
  return deck;
}

/** A host on what stood on the disk when the one before was cut off. */
function afterAKill(): Promise<OpenDeck> {
  const data = freshDataFolder();
  cpSync(join(folder, 'runs'), join(data, 'runs'), { recursive: true });
  return opened(data);
}

function takenByAnother(): void {
  const other = { pid: 1, born: null, boot: 'b', space: null, token: 'another' };
  writeFileSync(join(folder, 'host.lock'), lockText(other));
}

const notices = ({ host }: OpenDeck) => host.snapshot().notices;

describe('[opening] a data folder', () => {
  test('that does not exist yet is made without a notice', async () => {
    folder = join(folder, 'deep', 'down');
    const deck = await opened();
    expect(existsSync(join(folder, 'host.lock'))).toBe(true);
    expect(notices(deck)).toEqual([]);
    expect([deck.cameBack, deck.unattended]).toEqual([null, []]);
  });

  test('that another host has is refused with a sentence until that host ends', async () => {
    const deck = await opened();
    expect(await openDeck(folder, clock, clock.timers)).toEqual({
      ok: false,
      why: `Another Lanecall is using ${folder}: end that one, or name another folder with --data.`,
    });
    await deck.close();
    expect(clock.pending).toBe(0);
    await opened();
  });

  test('that cannot be made is reported, and the clock runs all the same', async () => {
    writeFileSync(join(folder, 'file'), '');
    folder = join(folder, 'file', 'data');
    const deck = await going();
    expect(notices(deck)[1]).toBe(
      `The folder ${folder} cannot be written to (there is a file in place of a folder): a run may not survive a crash, ` +
        'and a second Lanecall there would not be noticed. Make it writable, or start with another folder by --data.',
    );
    expect(deck.host.current()!.commands).toHaveLength(1);
  });

  test('that another host has taken is reported, in place of every other notice about the record', async () => {
    const deck = await going();
    const [journal] = readdirSync(join(folder, 'runs'));
    rmSync(join(folder, 'runs', journal!));
    await deck.host.command('more', { do: 'mark' });
    expect(notices(deck)).toEqual([expect.stringContaining('was removed or moved away')]);
    takenByAnother();
    clock.advance(1000);
    await expect
      .poll(() => notices(deck))
      .toEqual([
        `Another Lanecall has taken over ${folder}, because this one stood still for a while: nothing you do here is ` +
          'recorded any more. Close one of the two and go on in the other.',
      ]);
  });
});

describe('[opening] a run that was cut off', () => {
  test('comes back with the title of its session, and its journal goes on in the same file', async () => {
    await going();
    const again = await afterAKill();
    expect(again.cameBack).toBe('Tuesday');
    expect(again.host.current()!.commands).toHaveLength(1);
    expect(await again.host.command('more', { do: 'mark' })).toMatchObject({ ok: true });
    expect(notices(again).join()).not.toContain('not on the disk');
  });

  test('comes back as “session” if it has no title', async () => {
    await going('4 x 50 @ 1:00\n');
    expect((await afterAKill()).cameBack).toBe('a session');
  });

  test('that was already over is shown, and not said to have come back', async () => {
    const deck = await going();
    clock.advance(60_000);
    await deck.host.command('end', { do: 'finish' });
    const again = await afterAKill();
    expect(again.host.current()).not.toBeNull();
    expect(again.cameBack).toBeNull();
  });

  test('days ago is reported as left unattended', async () => {
    writeJournal(folder, { run: 'old', text: HOUR, openedAt: 0 }, STARTED);
    clock.advance(3 * DAY);
    const deck = await opened();
    expect(deck.unattended).toEqual([expect.stringContaining('Tuesday')]);
    expect(deck.cameBack).toBeNull();
  });
});

describe('[opening] what else stands in the folder', () => {
  test('a deletion that was cut off is finished before any journal is read', async () => {
    const run = { run: 'gone', text: HOUR };
    const path = writeJournal(folder, run, STARTED);
    writeFileSync(join(folder, 'deleting.json'), JSON.stringify({ version: 1, delete: { what: 'everything' } }));
    const deck = await opened();
    expect([existsSync(path), existsSync(join(folder, 'deleting.json'))]).toEqual([false, false]);
    expect([deck.host.current(), notices(deck)]).toEqual([null, []]);
  });

  test('a deletion file or a screens file that cannot be read is reported', async () => {
    writeFileSync(join(folder, 'deleting.json'), '?');
    writeFileSync(join(folder, 'screens.json'), '?');
    expect(notices(await opened())).toEqual([
      expect.stringContaining('deleting.json cannot be read'),
      expect.stringContaining('screens.json does not hold the settings of screens'),
    ]);
  });

  test('screen settings that cannot be kept are reported until they can be', async () => {
    const deck = await opened();
    mkdirSync(join(folder, 'screens.json'));
    const wall = { name: 'Hall', search: '', room: { width: 1920, height: 1080 } };
    deck.host.screenBook.join(wall, () => undefined);
    deck.host.screenBook.carryOut('Hall', { settings: { pushOff: 'right' } });
    await expect.poll(() => notices(deck)).toEqual([expect.stringContaining("The screens' settings cannot be kept")]);
  });

  test('sessions are kept there, and used at the time of day', async () => {
    const { library } = await opened();
    await library.ask({ do: 'create', kind: 'session', name: 'Tuesday', text: HOUR });
    await library.ask({ do: 'read', kind: 'session', name: 'Tuesday' });
    expect(readFileSync(join(folder, 'sessions', 'Tuesday.txt'), 'utf8')).toBe(HOUR);
    const used = new Date(clock.wall().epochMs).toISOString();
    expect(JSON.parse(readFileSync(join(folder, 'library.json'), 'utf8'))).toEqual({ lastUsed: { Tuesday: used } });
  });

  test('squads are kept there while the folder is ours', async () => {
    const { squads } = await opened();
    const squad = { name: 'Harbour', lanes: ['lane 1 base 1:30'] };
    expect(await squads.ask({ do: 'keep', squad, over: false })).toMatchObject({ ok: true });
    expect(existsSync(join(folder, 'squads.json'))).toBe(true);
    takenByAnother();
    expect(await squads.ask({ do: 'keep', squad, over: true })).toMatchObject({ ok: false });
  });
});

describe('[opening] the runs that are kept', () => {
  test('are those of the folder; the open run is not deleted while it goes, and is deleted if it was never started', async () => {
    writeJournal(folder, { run: 'old', text: HOUR, openedAt: 0 }, [...STARTED, DONE]);
    const { host, records } = await going();
    const all = { do: 'list', find: '', from: null, to: null, most: 10 } as const;
    expect(await records.ask(all)).toMatchObject({ ok: true, runs: [{}, { run: 'old' }] });
    const { id } = host.current()!;
    expect(await records.ask({ do: 'delete-run', run: id })).toMatchObject({
      ok: false,
      why: expect.stringContaining('still going') as string,
    });
    await host.open({ text: HOUR, lanesText: null }, { replace: true });
    expect(await records.ask({ do: 'delete-everything' })).toMatchObject({ ok: true, runs: 3 });
    expect([host.current(), readdirSync(join(folder, 'runs'))]).toEqual([null, []]);
  });

  test('can be deleted one by one when none is open', async () => {
    const path = writeJournal(folder, { run: 'old', text: HOUR, openedAt: 0 }, [...STARTED, DONE]);
    const { records } = await opened();
    expect(await records.ask({ do: 'delete-run', run: 'old' })).toEqual({ ok: true });
    expect(existsSync(path)).toBe(false);
  });

  test('are deleted together with the sessions, and the library reads its folder anew', async () => {
    const { library, records } = await opened();
    await library.ask({ do: 'create', kind: 'session', name: 'Tuesday', text: HOUR });
    await library.ask({ do: 'list', find: '', most: 10 });
    expect(await records.ask({ do: 'delete-everything' })).toMatchObject({ ok: true, texts: 1 });
    expect(await library.ask({ do: 'list', find: '', most: 10 })).toMatchObject({ ok: true, sessions: [] });
  });
});

describe('[opening] closing', () => {
  test('ends a run that was never started: it does not come back', async () => {
    const deck = await opened();
    await deck.host.open({ text: HOUR, lanesText: null }, { replace: false });
    await deck.close();
    expect((await opened()).host.current()).toBeNull();
  });

  test('writes everything to the disk first, screen settings too', async () => {
    const deck = await going();
    void deck.host.command('late', { do: 'mark' });
    const wall = { name: 'Hall', search: '', room: { width: 1920, height: 1080 } };
    deck.host.screenBook.join(wall, () => undefined);
    deck.host.screenBook.carryOut('Hall', { settings: { pushOff: 'right' } });
    await deck.close();
    expect(readFileSync(join(folder, 'screens.json'), 'utf8')).toContain('Hall');
    expect((await opened()).host.current()!.commands).toHaveLength(2);
  });

  test('waits at most a second for a disk that hangs', async () => {
    const deck = await going();
    await deck.journal.end();
    vi.spyOn(deck.journal, 'end').mockReturnValue(new Promise(() => undefined));
    let closed = false;
    const closing = deck.close().then(() => (closed = true));
    await expect.poll(() => clock.pending).toBe(2);
    clock.advance(999);
    await settled();
    expect([closed, existsSync(join(folder, 'host.lock'))]).toEqual([false, true]);
    clock.advance(1);
    await closing;
    expect(existsSync(join(folder, 'host.lock'))).toBe(false);
  });

  test('goes on even if the disk refuses', async () => {
    const deck = await going();
    vi.spyOn(deck.journal, 'end').mockRejectedValue(new Error('refused'));
    await deck.close();
    expect([existsSync(join(folder, 'host.lock')), clock.pending]).toEqual([false, 0]);
  });
});
