/*
 * The start of the desktop program: what is so before Electron is ready, and what is done once it is. The program itself
 * is not started here.
 */

import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { StandInApp } from '../support/electron-stand-in/app.ts';
import { StandInMenu } from '../support/electron-stand-in/system/system.ts';
import { onPlatform } from '../support/system/bent-system.ts';
import { freshDataFolder } from '../support/host/folders/data-folder.ts';

const electron = vi.hoisted(() => ({
  app: null as unknown,
  Menu: null as unknown,
  dialog: null as unknown,
  protocol: null as unknown,
}));
vi.mock('electron', () => electron);

const world = vi.hoisted(() => ({ startProgram: vi.fn(), spawn: vi.fn() }));
vi.mock('../../app/desktop/program.ts', () => ({ startProgram: world.startProgram }));
vi.mock('node:child_process', () => ({ spawn: world.spawn }));

const EXECUTABLE = '/opt/lanecall';
const STREAMS = [process.stdout, process.stderr] as const;

let folder: string;
let app: StandInApp;
let program: { focus: ReturnType<typeof vi.fn>; openFile: ReturnType<typeof vi.fn> };
/** What the user reads, in a box or on the terminal, and with which statuses the program has ended. */
let boxes: string[];
let printed: string[];
let ended: number[];
let schemes: unknown[];
let straight: (() => void)[];

/** Another process of the program, on its own stand-in of Electron. */
function newProcess(switches: Record<string, string> = {}): StandInApp {
  const made = new StandInApp(new Map(Object.entries(switches)));
  made.connect({ closeWindows: () => true, end: (status) => void ended.push(status) });
  made.setPath('userData', folder);
  return (electron.app = app = made);
}

/** Starts it with these words; Electron is not ready yet. */
async function begin(...words: readonly string[]): Promise<void> {
  process.argv = [EXECUTABLE, ...words];
  vi.resetModules();
  await import('../../app/desktop/main.ts');
}

async function started(...words: readonly string[]): Promise<void> {
  await begin(...words);
  app.setReady();
  await vi.waitFor(() => expect(world.startProgram).toHaveBeenCalled());
}

beforeEach(() => {
  folder = freshDataFolder();
  [boxes, printed, ended, schemes] = [[], [], [], []];
  program = { focus: vi.fn(), openFile: vi.fn(() => Promise.resolve()) };
  electron.Menu = StandInMenu;
  electron.dialog = { showErrorBox: (title: string, why: string) => void boxes.push(`${title}: ${why}`) };
  electron.protocol = { registerSchemesAsPrivileged: (all: unknown[]) => void schemes.push(...all) };
  world.startProgram.mockReset().mockImplementation(() => Promise.resolve({ ok: true, program }));
  world.spawn.mockReset().mockReturnValue({ unref: vi.fn() });
  vi.stubEnv('XDG_DATA_HOME', join(folder, 'own'));
  vi.spyOn(process.stderr, 'write').mockImplementation((text: unknown, written: unknown) => {
    printed.push(String(text));
    (written as () => void)();
    return true;
  });
  const { argv } = process;
  const before = STREAMS.map((stream) => stream.listeners('error'));
  straight = [
    () => void (process.argv = argv),
    () => void Reflect.deleteProperty(process, 'defaultApp'),
    ...STREAMS.map((stream, index) => () => {
      for (const listener of stream.listeners('error')) {
        if (!before[index]!.includes(listener)) stream.off('error', listener as () => void);
      }
    }),
  ];
  newProcess();
});

afterEach(() => {
  for (const put of straight) put();
  vi.restoreAllMocks();
  vi.unstubAllEnvs();
});

describe('[start] before it is ready, the program', () => {
  test('is shut into its sandbox, has its scheme, and none of Electron’s menus', async () => {
    StandInMenu.setApplicationMenu(StandInMenu.buildFromTemplate([]));
    await begin();
    expect([app.isSandboxed, schemes.length, StandInMenu.getApplicationMenu()]).toEqual([true, 1, null]);
    expect(world.startProgram).not.toHaveBeenCalled();
  });

  test('does not switch a sandbox on that somebody has switched off', async () => {
    newProcess({ 'no-sandbox': '' });
    await begin();
    expect(app.isSandboxed).toBe(false);
  });

  test('keeps Chromium’s files in the data folder that was named, and otherwise where Electron has them', async () => {
    const data = join(folder, 'evening', 'data');
    await begin(`--data=${data}`);
    expect([app.getPath('userData'), existsSync(join(data, 'browser'))]).toEqual([join(data, 'browser'), true]);
    newProcess();
    await begin();
    expect(app.getPath('userData')).toBe(folder);
  });

  test('says so and ends where the named folder cannot be made, and is told in a box only where it is packed', async () => {
    const data = join(folder, 'a file');
    writeFileSync(data, '');
    const why = new RegExp(`^${data}: no folder can be made there \\((ENOTDIR|EEXIST): .*\\)\\.\n$`);
    await begin('--data', data);
    expect([printed, ended, boxes]).toEqual([[expect.stringMatching(why)], [1], []]);
    Object.assign(newProcess(), { isPackaged: true });
    await begin('--data', data);
    expect(boxes).toEqual([`Lanecall cannot start: ${printed[1]!.trim()}`]);
    expect([schemes, app.listenerCount('activate')]).toEqual([[], 0]);
  });

  test('goes on without a terminal that has been closed', async () => {
    await begin();
    for (const stream of STREAMS) expect(() => stream.emit('error', new Error('EPIPE'))).not.toThrow();
  });

  test('starts itself once more where it is on Wayland beside an X server, and leaves that one alone', async () => {
    onPlatform('linux');
    vi.stubEnv('DISPLAY', 'far:0');
    newProcess({ 'ozone-platform': 'wayland' });
    await begin('--data', folder, 'a.txt');
    const words = ['--ozone-platform=x11', '--data', folder, 'a.txt'];
    expect(world.spawn).toHaveBeenCalledExactlyOnceWith(process.execPath, words, { detached: true, stdio: 'inherit' });
    expect(world.spawn.mock.results[0]!.value.unref).toHaveBeenCalled();
    expect([ended, schemes, existsSync(join(folder, 'browser'))]).toEqual([[0], [], false]);
  });
});

describe('[start] once it is ready, the program', () => {
  test('runs on the folder that was named, and opens the session that was named with its lanes', async () => {
    await started('--data', folder, '--lanes', '/pool/lanes.txt', '/pool/a.txt');
    await vi.waitFor(() => expect(program.openFile).toHaveBeenCalledWith('/pool/a.txt', '/pool/lanes.txt'));
    expect(world.startProgram).toHaveBeenCalledExactlyOnceWith(folder, expect.stringMatching(/[/\\]app[/\\]pages$/));
  });

  test('takes the folder that a bare Electron runs it from for no session', async () => {
    Object.assign(process, { defaultApp: true });
    await started('/clone', '--data', folder, '/pool/a.txt');
    await vi.waitFor(() => expect(program.openFile).toHaveBeenCalledExactlyOnceWith('/pool/a.txt', null));
  });

  test('opens nothing unasked', async () => {
    await started('--data', folder);
    app.emit('activate', {});
    await vi.waitFor(() => expect(program.focus).toHaveBeenCalledTimes(1));
    expect([program.openFile.mock.calls, ended, printed]).toEqual([[], [], []]);
  });

  test('runs on the folder of the system otherwise, with what an older one kept beside Chromium’s files', async () => {
    mkdirSync(join(folder, 'data'));
    writeFileSync(join(folder, 'data', 'windows.json'), '{"older":true}');
    await started();
    const own = join(folder, 'own', 'lanecall');
    expect(world.startProgram.mock.calls[0]![0]).toBe(own);
    expect(readFileSync(join(own, 'windows.json'), 'utf8')).toBe('{"older":true}');
  });

  test('starts all the same where that cannot be brought over', async () => {
    mkdirSync(join(folder, 'data'));
    writeFileSync(join(folder, 'data', 'windows.json'), '{"older":true}');
    writeFileSync(join(folder, 'own'), 'in the way');
    await started();
    expect([ended, existsSync(join(folder, 'data', 'windows.json'))]).toEqual([[], true]);
  });

  test('brings nothing into a folder that was named', async () => {
    const data = join(folder, 'named');
    for (const place of [folder, join(data, 'browser')]) {
      mkdirSync(join(place, 'data'), { recursive: true });
      writeFileSync(join(place, 'data', 'windows.json'), '{"older":true}');
    }
    await started('--data', data);
    expect(existsSync(join(data, 'windows.json'))).toBe(false);
  });

  test.each<[string, () => Promise<unknown>]>([
    ['refuses', () => Promise.resolve({ ok: false, why: 'The folder is taken.' })],
    ['fails', () => Promise.reject(new Error('The folder is taken.'))],
    ['fails with a bare text', vi.fn().mockRejectedValue('The folder is taken.')],
  ])('says why and ends where the start %s, whatever it is asked meanwhile', async (_, start) => {
    world.startProgram.mockImplementation(start);
    await started('/pool/a.txt');
    app.emit('activate', {});
    app.emit('second-instance', {}, [], '/', { session: '/pool/c.txt' });
    app.emit('open-file', { preventDefault: () => undefined }, '/pool/b.txt');
    await vi.waitFor(() => expect([printed, ended]).toEqual([['The folder is taken.\n'], [1]]));
    expect([program.focus.mock.calls, program.openFile.mock.calls]).toEqual([[], []]);
  });

  test('stays while a window is being replaced by another', async () => {
    await started();
    app.windowsAllClosed();
    expect(ended).toEqual([]);
  });
});

describe('[start] a file that is handed over', () => {
  test('by macOS before the program is ready waits for it', async () => {
    await begin();
    const preventDefault = vi.fn();
    app.emit('open-file', { preventDefault }, '/pool/a.txt');
    expect(preventDefault).toHaveBeenCalled();
    expect(program.openFile).not.toHaveBeenCalled();
    app.setReady();
    await vi.waitFor(() => expect(program.openFile).toHaveBeenCalledExactlyOnceWith('/pool/a.txt', null));
  });

  test('by a second start on the same data is opened in the first, which comes to the front; the second ends', async () => {
    await started();
    newProcess();
    await begin('/pool/a.txt');
    await vi.waitFor(() => expect(program.openFile).toHaveBeenCalledExactlyOnceWith('/pool/a.txt', null));
    await vi.waitFor(() => expect(ended).toEqual([0]));
    expect(program.focus).toHaveBeenCalledTimes(1);
    expect(world.startProgram).toHaveBeenCalledTimes(1);
  });

  test.each<[string, unknown]>([
    ['no session', { session: null }],
    ['a number', { session: 7 }],
    ['nothing', undefined],
    ['null', null],
    ['a text', 'session'],
  ])('is none where a second start sends %s: the window comes to the front all the same', async (_, sent) => {
    await started();
    app.emit('second-instance', {}, [], '/', sent);
    await vi.waitFor(() => expect(program.focus).toHaveBeenCalledTimes(1));
    app.emit('second-instance', {}, [], '/', { session: '/pool/a.txt' });
    await vi.waitFor(() => expect(program.openFile).toHaveBeenCalledExactlyOnceWith('/pool/a.txt', null));
  });
});
