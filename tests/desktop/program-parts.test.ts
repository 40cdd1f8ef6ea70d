/*
 * The desktop program's smaller judgements: what it was started with, what it keeps, when a page comes
 * back, when the machine may sleep, what becomes of a file, and what stands in the menu.
 */

import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type Electron from 'electron';
import { describe, expect, test, vi } from 'vitest';
import { startArguments } from '../../app/desktop/arguments.ts';
import { deskLook } from '../../app/desktop/desk-window.ts';
import type { SomeDisplay } from '../../app/desktop/displays.ts';
import { menuTemplate, type MenuState } from '../../app/desktop/menu.ts';
import { bringOver } from '../../app/desktop/older-data.ts';
import { openFile } from '../../app/desktop/opened-file.ts';
import { keepsAwake } from '../../app/desktop/power.ts';
import { afterDeath } from '../../app/desktop/restarts.ts';
import { FIRST_SETTINGS, readSettings, settingsOf, writeSettings } from '../../app/desktop/settings.ts';
import { DeckHost } from '../../app/host/deck/deck-host.ts';
import type { OpenRun } from '../../app/host/deck/open-run.ts';
import { JournalInMemory } from '../support/journal-in-memory.ts';
import { keyForCoach } from '../../app/desktop/wall-keys.ts';
import { HOUR, MINUTE, SECOND } from '../../app/core/units.ts';
import { freshDataFolder } from '../support/data-folder.ts';
import { Deck } from '../support/deck.ts';
import { FakeClock } from '../support/fake-clock.ts';

vi.mock('electron', () => ({ BrowserWindow: {}, powerMonitor: {}, powerSaveBlocker: {}, screen: {} }));

const laptop = display(1, 'Built-in', 0, true);
const tv = display(2, 'Pool TV', 1280, false);

describe('[start] the program reads its arguments', () => {
  const none = { session: null, lanes: null, data: null };
  test.each<[string, string[], boolean, object]>([
    ['packed, without any', ['/opt/lanecall'], false, none],
    [
      'packed, with a file',
      ['/opt/lanecall', 'a.lanecall'],
      false,
      { ...none, session: resolve('/home', 'a.lanecall') },
    ],
    ['from its folder', ['electron', '/clone'], true, none],
    [
      'with switches of the engine',
      ['electron', '--inspect=0', '--no-sandbox', '/clone', '--flag', 'a.txt'],
      true,
      { ...none, session: resolve('/home', 'a.txt') },
    ],
    [
      'with options',
      ['lanecall', '--data', 'd', '--lanes=l.txt', '/s.txt'],
      false,
      { session: resolve('/s.txt'), lanes: resolve('/home/l.txt'), data: resolve('/home/d') },
    ],
    [
      'packed, with the address of a file, as the desktops of Linux hand one over',
      ['/opt/lanecall', 'file:///home/a%20b.lanecall'],
      false,
      { ...none, session: '/home/a b.lanecall' },
    ],
    ['packed, with the address of a file elsewhere', ['/opt/lanecall', 'file://far/%zz'], false, none],
    ['with an option left open', ['lanecall', '--data'], false, none],
    ['with nothing at all', [], true, none],
  ])('%s', (_, argv, isDefaultApp, expected) => {
    expect(startArguments(argv, isDefaultApp, '/home')).toEqual(expected);
  });
});

describe('[desktop] what is kept of the windows', () => {
  test('is there again, whole', async () => {
    const folder = freshDataFolder();
    const settings = {
      wall: { shown: false, look: 'window', display: { id: 7, label: 'Pool TV', width: 1920, height: 1080 } },
      desk: { x: 1, y: 2, width: 800, height: 600 },
    } as const;
    await writeSettings(folder, settings);
    expect(await readSettings(folder)).toEqual(settings);
    // They are kept where the folder has been taken away meanwhile, too.
    rmSync(folder, { recursive: true });
    await writeSettings(folder, settings);
    expect(await readSettings(folder)).toEqual(settings);
  });

  test('counts as not chosen where it is missing, torn or cannot be written', async () => {
    const folder = freshDataFolder();
    expect(await readSettings(folder)).toEqual(FIRST_SETTINGS);
    writeFileSync(join(folder, 'windows.json'), '{"wall": {"sho');
    expect(await readSettings(folder)).toEqual(FIRST_SETTINGS);
    mkdirSync(join(folder, 'taken', 'windows.json'), { recursive: true });
    await expect(writeSettings(join(folder, 'taken'), FIRST_SETTINGS)).resolves.toBeUndefined();
  });

  test.each([
    null,
    7,
    [],
    { wall: 7, desk: 'x' },
    { wall: { display: { id: 'x' } }, desk: { x: 0, y: 0, width: 1, height: 1 } },
  ])('is read with what can be used of %j', (value) => {
    expect(settingsOf(value)).toEqual(FIRST_SETTINGS);
  });
});

describe('[desktop] runs of an older data folder', () => {
  test('are brought over once, and nothing that is there already is written over', async () => {
    const [older, folder] = [freshDataFolder(), freshDataFolder()];
    for (const [place, name, text] of [
      [older, 'a.run', 'old a'],
      [older, 'b.run', 'old b'],
      [folder, 'b.run', 'new b'],
    ] as const) {
      mkdirSync(join(place, 'runs'), { recursive: true });
      writeFileSync(join(place, 'runs', name), text);
    }
    await bringOver(older, folder);
    const read = (name: string): string => readFileSync(join(folder, 'runs', name), 'utf8');
    expect([read('a.run'), read('b.run')]).toEqual(['old a', 'new b']);
    rmSync(join(folder, 'runs', 'a.run'));
    await bringOver(older, folder);
    expect(existsSync(join(folder, 'runs', 'a.run'))).toBe(false);
    expect(existsSync(join(older, 'runs.brought-over', 'a.run'))).toBe(true);
  });

  test('are none where there is no such folder', async () => {
    await expect(bringOver('/no/such/folder', freshDataFolder())).resolves.toBeUndefined();
  });
});

describe("[desktop] the coach's window opens", () => {
  test('where it was, if there is still a display there', () => {
    const before = { x: 1400, y: 100, width: 900, height: 700 };
    expect(deskLook([laptop, tv], 1, before)).toMatchObject(before);
    expect(deskLook([laptop], 1, before)).toMatchObject({ x: 0, y: 0, width: 1280, height: 800 });
  });

  test("at first on the machine's own display", () => {
    expect(deskLook([tv, laptop], tv.id, null).x).toBeLessThan(1280);
    expect(deskLook([], 0, null)).toMatchObject({ width: 1280 });
  });

  test('at first on the primary display where the system says of none that it is built in', () => {
    const plain = { ...laptop, internal: false };
    expect(deskLook([tv, plain], plain.id, null).x).toBeLessThan(1280);
    expect(deskLook([plain, tv], tv.id, null).x).toBeGreaterThanOrEqual(1280);
  });
});

describe('[desktop] a page that dies', () => {
  test.each<[string, string, number[], number, string]>([
    ['comes back', 'crashed', [], 0, 'again'],
    ['comes back a third time', 'oom', [0, 10_000], 20_000, 'again'],
    ['is plain at the fourth time within a minute', 'crashed', [0, 10_000, 20_000], 59_999, 'plain page'],
    ['comes back when the minute is over', 'crashed', [0, 10_000, 20_000], 60_000, 'again'],
    ['in good order stays away', 'clean-exit', [], 0, 'nothing'],
  ])('%s', (_, reason, deaths, now, expected) => {
    expect(afterDeath(reason, deaths, now, false)).toBe(expected);
  });

  test('stays away where it was the plain one', () => {
    expect(afterDeath('crashed', [0, 1000, 2000], 3000, true)).toBe('nothing');
  });
});

describe('[power] displays stay on', () => {
  const TEXT = 'start on 1\nlane 1\nMain set\n4 x 50 free @ 1:00\nSwim-down\n100 easy';
  const started = runOf(new Deck(TEXT).at(0, { do: 'start' }), 0);

  test.each<[string, Pick<OpenRun, 'state' | 'commands'>, number, boolean]>([
    ['not for a session that is only open', { ...started, commands: [] }, 0, false],
    ['from the start on', started, 1, true],
    ['between the stretches', started, 10 * MINUTE, true],
    ['not when nothing has happened for an hour', started, 3 * MINUTE + 10 * SECOND + HOUR + 1, false],
    [
      'not when all is done',
      runOf(new Deck(TEXT).at(0, { do: 'start' }).at(20, { do: 'finish' }), 20_000),
      30_000,
      false,
    ],
  ])('%s', (_, run, t, expected) => {
    expect(keepsAwake(run, t)).toBe(expected);
  });

  function runOf(deck: Deck, at: number): Pick<OpenRun, 'state' | 'commands'> {
    return { state: deck.state, commands: [{ at, command: { do: 'start' } }] };
  }
});

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

describe('[desktop] a key on the wall screen', () => {
  const press: Electron.Input = {
    type: 'keyDown',
    key: 'PageDown',
    code: 'PageDown',
    isAutoRepeat: false,
    isComposing: false,
    shift: false,
    control: false,
    alt: false,
    meta: false,
    location: 0,
    modifiers: [],
  };

  test("goes to the coach's window as it was pressed", () => {
    expect(keyForCoach(press)).toEqual({ key: 'PageDown', code: 'PageDown', shiftKey: false, repeat: false });
    expect(keyForCoach({ ...press, key: 'M', code: 'KeyM', shift: true, isAutoRepeat: true })).toMatchObject({
      shiftKey: true,
      repeat: true,
    });
  });

  test.each<[string, Partial<Electron.Input>]>([
    ['that is let go', { type: 'keyUp' }],
    ["with Control: the menu's", { control: true }],
    ["with Alt: the system's", { alt: true }],
    ["with Command: the menu's", { meta: true }],
    ['that writes a character with others', { isComposing: true }],
    ['to get about on the page', { key: 'Tab' }],
    ['that is only held', { key: 'Shift' }],
  ])('%s stays where it is', (_, change) => {
    expect(keyForCoach({ ...press, ...change })).toBeNull();
  });
});

describe('[menu]', () => {
  const state: MenuState = {
    displays: [laptop, tv],
    wish: { shown: true, look: 'full screen', display: null },
    place: { look: 'full screen', display: tv },
    platform: 'linux',
  };

  test('has the wall screen: show, full screen or window, and every display', () => {
    const said: unknown[] = [];
    const template = menuTemplate(state, () => ({
      showCoach: vi.fn(),
      show: (shown) => void said.push(shown),
      look: (look) => void said.push(look),
      moveTo: ({ id }) => void said.push(id),
    }));
    const wall = template.find(({ label }) => label === 'Wall screen')!
      .submenu as Electron.MenuItemConstructorOptions[];
    const moves = wall.find(({ label }) => label === 'Move to')!.submenu as Electron.MenuItemConstructorOptions[];
    expect(moves.map(({ label, checked }) => [label, checked])).toEqual([
      ['Built-in (1280 × 800)', false],
      ['Pool TV (1280 × 800)', true],
    ]);
    for (const item of [...wall, ...moves]) item.click?.({} as never, undefined, {} as never);
    expect(said).toEqual([false, 'full screen', 'window', 1, 2]);
  });

  const rolesOn = (platform: NodeJS.Platform): string =>
    JSON.stringify(
      menuTemplate({ ...state, platform }, () => ({
        showCoach: vi.fn(),
        show: vi.fn(),
        look: vi.fn(),
        moveTo: vi.fn(),
      })),
    );

  test.each(['linux', 'win32', 'darwin'] as const)(
    'has on %s nothing that loads a page again, opens tools, hides the wall screen or closes a window by a slip',
    (platform) => {
      expect(rolesOn(platform)).not.toMatch(/reload|toggleDevTools|viewMenu|windowMenu|appMenu|hide|minimize|close/i);
      expect(rolesOn(platform)).toContain('"role":"quit"');
    },
  );

  test("has on macOS the windows, and the coach's by name", () => {
    const showCoach = vi.fn();
    const actions = { showCoach, show: vi.fn(), look: vi.fn(), moveTo: vi.fn() };
    const template = menuTemplate({ ...state, platform: 'darwin' }, () => actions);
    const window = template.find(({ role }) => role === 'window')!.submenu as Electron.MenuItemConstructorOptions[];
    window[0]!.click?.({} as never, undefined, {} as never);
    expect([window[0]!.label, showCoach.mock.calls.length]).toEqual(["Coach's window", 1]);
  });
});

function display(id: number, label: string, x: number, internal: boolean): SomeDisplay {
  const bounds = { x, y: 0, width: 1280, height: 800 };
  return { id, label, internal, bounds, workArea: bounds };
}
