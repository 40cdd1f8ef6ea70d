/*
 * The running program put together: a real host on a folder of its own, the stand-in's windows, and what comes from the
 * system. Its pages are spoken for here: none is drawn.
 */

import { EventEmitter } from 'node:events';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { startProgram, type Program } from '../../app/desktop/program.ts';
import { pageAddress, type WindowKind } from '../../app/desktop/windows/window-kind.ts';
import { WIRE_VERSION, type FromHost } from '../../app/wire/messages.ts';
import { CHANNELS } from '../../app/wire/window-bridge.ts';
import { FakeClock } from '../support/clock/fake-clock.ts';
import { laptop, tv } from '../support/desktop/some-displays.ts';
import { StandInApp } from '../support/electron-stand-in/app.ts';
import { StandInIpcMain } from '../support/electron-stand-in/messages.ts';
import { StandInSession } from '../support/electron-stand-in/session.ts';
import { StandInMenu, StandInPowerSaveBlocker, StandInScreen } from '../support/electron-stand-in/system.ts';
import { StandInWindow } from '../support/electron-stand-in/window.ts';
import { freshDataFolder } from '../support/host/data-folder.ts';
import { readFromHost } from '../support/host/from-host.ts';

const electron = vi.hoisted(() => ({
  app: null as unknown,
  BrowserWindow: null as unknown,
  ipcMain: null as unknown,
  Menu: null as unknown,
  powerMonitor: null as unknown,
  powerSaveBlocker: null as unknown,
  screen: null as unknown,
  session: null as unknown,
}));
vi.mock('electron', () => electron);

const time = vi.hoisted(() => ({ clock: null as unknown }));
vi.mock('../../app/host/time/clock.ts', async (original) => ({
  ...(await original<object>()),
  systemClock: () => time.clock,
}));
vi.mock('../../app/host/time/timers.ts', () => ({
  systemTimers: {
    set: (call: () => void, delay: number) => clock.timers.set(call, delay),
    clear: (timer: object) => clock.timers.clear(timer),
  },
}));

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP', 'uncaughtException'] as const;
/** In ms: screens hear of all that is new within it. */
const MOMENT = 300;
const SESSION = 'Squad\nlane 1 Ana\n\nMain set\n8 x 50 @ 1:00\n';

let clock: FakeClock;
let data: string;
let app: StandInApp;
let monitor: EventEmitter;
let ipc: StandInIpcMain;
let windowSession: StandInSession;
let blocker: StandInPowerSaveBlocker;
let ended: number[];
let printed: string[];
let straight: () => void;

/** A window of the program, with its page spoken for. */
class Page {
  /** What its page is told of besides deck messages. */
  readonly told: unknown[][] = [];
  readonly heard: FromHost[] = [];
  readonly window: StandInWindow;
  private readonly kind: WindowKind;

  constructor(kind: WindowKind) {
    this.kind = kind;
    this.window = StandInWindow.getAllWindows().find(({ title }) => (title === 'Lanecall') === (kind === 'desk'))!;
    const { webContents } = this.window;
    webContents.getURL = () => pageAddress(kind);
    webContents.send = (channel: string, ...words: unknown[]) => {
      if (channel === CHANNELS.heard) this.heard.push(readFromHost(String(words[1]))!);
      else this.told.push([channel, ...words]);
    };
    webContents.emit('did-finish-load');
  }

  tell(channel: string, ...words: unknown[]): void {
    const senderFrame = { url: pageAddress(this.kind), parent: null };
    ipc.sent({ sender: this.window.webContents, senderFrame }, channel, words);
  }

  say(message: object): void {
    this.tell(CHANNELS.say, 1, JSON.stringify(message));
  }

  /** Connects, and is greeted as a screen. */
  async come(): Promise<this> {
    this.tell(CHANNELS.connect, 1);
    this.say({ say: 'hello', version: WIRE_VERSION, screen: this.kind });
    await vi.waitFor(() => expect(this.snapshots()).not.toEqual([]));
    return this;
  }

  async commands(id: string, fields: object): Promise<void> {
    this.say({ say: 'command', id, command: fields });
    await vi.waitFor(() => expect(this.heard).toContainEqual(expect.objectContaining({ say: 'answer', id })));
  }

  snapshots() {
    return this.heard.filter((message) => message.say === 'snapshot');
  }

  /** What it shows above all else, as told within a moment from now. */
  notices(): readonly string[] {
    clock.advance(MOMENT);
    return this.heard.filter((message) => message.say === 'snapshot' || message.say === 'commands').at(-1)!.notices;
  }
}

/** Another process of the program on this machine. */
function newProcess(): void {
  for (const window of StandInWindow.getAllWindows()) window.destroy();
  ended = [];
  app = new StandInApp();
  app.connect({
    closeWindows: () => true,
    end: (status) => void ended.push(status),
  });
  monitor = new EventEmitter();
  ipc = new StandInIpcMain();
  windowSession = new StandInSession();
  blocker = new StandInPowerSaveBlocker();
  const screen = new StandInScreen([laptop, tv]);
  Object.assign(electron, {
    app,
    BrowserWindow: StandInWindow,
    ipcMain: ipc,
    Menu: StandInMenu,
    powerMonitor: monitor,
    powerSaveBlocker: blocker,
    screen,
    session: { defaultSession: windowSession },
  });
  StandInWindow.ports = {
    engine: new Promise(() => undefined),
    ipcMain: ipc,
    session: windowSession,
    displayOf: (bounds) => screen.getDisplayMatching(bounds).bounds,
    allClosed: () => app.windowsAllClosed(),
    platform: process.platform,
    later: (call, wait) => void clock.timers.set(call, wait),
  };
}

beforeEach(() => {
  clock = new FakeClock();
  time.clock = clock;
  data = freshDataFolder();
  printed = [];
  newProcess();
  vi.spyOn(process.stdout, 'write').mockImplementation((text) => printed.push(String(text)) > 0);
  const before = SIGNALS.map((name) => process.listeners(name as 'SIGINT'));
  straight = () =>
    SIGNALS.forEach((name, index) => {
      for (const listener of process.listeners(name as 'SIGINT')) {
        if (!before[index]!.includes(listener)) process.off(name, listener);
      }
    });
});

afterEach(async () => {
  if (app.listenerCount('before-quit') > 0 && ended.length === 0) await endedBySystem();
  straight();
  vi.restoreAllMocks();
});

async function start(): Promise<Program> {
  const pages = join(data, 'pages');
  for (const name of ['desk', 'wall']) {
    mkdirSync(join(pages, name), { recursive: true });
    writeFileSync(join(pages, name, 'index.html'), `<p>${name}</p>`);
  }
  const started = await startProgram(join(data, 'own'), pages);
  if (!started.ok) throw new Error(started.why);
  return started.program;
}

/** The machine is shut down: nobody is asked. */
async function endedBySystem(): Promise<void> {
  monitor.emit('shutdown');
  await vi.waitFor(() => expect(ended).toEqual([0]));
}

/** With a session that is open and has been started. */
async function going(): Promise<{ readonly program: Program; readonly desk: Page }> {
  const program = await start();
  await program.openFile(file('a.txt'), null);
  const desk = await new Page('desk').come();
  await desk.commands('start', { do: 'start' });
  return { program, desk };
}

/** So much later nothing waits to be written. */
async function writtenAfter(ms: number): Promise<void> {
  const before = signs().length;
  clock.advance(300);
  await vi.waitFor(() => expect(signs().length).toBeGreaterThan(before));
  clock.stall(ms - 300);
}

function file(name: string, text = SESSION): string {
  const path = join(data, name);
  writeFileSync(path, text);
  return path;
}

const lines = (): readonly { readonly say: string; readonly at?: number }[] => {
  const folder = join(data, 'own', 'runs');
  const name = readdirSync(folder).find((each) => each.endsWith('.jsonl'))!;
  return readFileSync(join(folder, name), 'utf8')
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line.slice(line.indexOf('{'), line.lastIndexOf('}') + 1)) as { say: string });
};

/** The signs of life in the record. */
const signs = () =>
  lines().filter((line): line is { say: 'alive'; at: number; leaves: readonly unknown[] } => line.say === 'alive');

const settings = (): unknown => JSON.parse(readFileSync(join(data, 'own', 'windows.json'), 'utf8'));

function clicks(...labels: readonly string[]): void {
  let items = StandInMenu.getApplicationMenu()!.items;
  for (const label of labels.slice(0, -1)) items = items.find((item) => item.label === label)!.submenu!.items;
  items.find(({ label }) => label === labels.at(-1))!.click();
}

describe('[desktop] the program', () => {
  test('opens the coach’s window and the wall’s, on the display each belongs to', async () => {
    await start();
    const [desk, wall] = [new Page('desk'), new Page('wall')];
    expect(StandInWindow.getAllWindows()).toHaveLength(2);
    expect([desk.window.isFocused(), wall.window.isFocused()]).toEqual([true, false]);
    clock.advance(10_000);
    expect([desk.window.isFullScreen(), wall.window.isFullScreen()]).toEqual([false, true]);
    expect(wall.window.getBounds()).toEqual(tv.bounds);
    expect(desk.window.getBounds()).toEqual(laptop.bounds);
  });

  test('is not started on a folder that another one is using', async () => {
    await start();
    expect(await startProgram(join(data, 'own'), data)).toEqual({
      ok: false,
      why: `Another Lanecall is using ${join(data, 'own')}: end that one, or name another folder with --data.`,
    });
  });

  test('has its pages shut in before there is a window: what they may do, load and save', async () => {
    electron.BrowserWindow = class {
      constructor() {
        const { permissionHandlers } = windowSession;
        throw new Error(
          `${[...permissionHandlers.keys()].sort().join()} ${windowSession.listenerCount('will-download')}`,
        );
      }
    };
    await expect(start()).rejects.toThrow('check,device,request 1');
    const loaded = async (url: string): Promise<string> => {
      let got = '';
      await windowSession.answer({
        request: () => ({ url: () => url, method: () => 'GET', postDataBuffer: () => null }),
        fulfill: ({ body }: { body: Buffer }) => Promise.resolve(void (got = body.toString())),
        abort: (why: string) => Promise.resolve(void (got = why)),
      } as never);
      return got;
    };
    expect(await loaded('https://lanecall.app.localhost/display')).toBe('<p>wall</p>');
    expect(await loaded('https://example.org/')).toBe('blockedbyclient');
  });

  test('says on the terminal that it is open once the coach’s window is painted and can be seen', async () => {
    await start();
    const [desk, wall] = [new Page('desk'), new Page('wall')];
    wall.tell(CHANNELS.painted);
    expect(printed).toEqual([]);
    desk.window.isVisible = () => false;
    desk.tell(CHANNELS.painted);
    expect(printed).toEqual([]);
    desk.window.emit('show');
    desk.window.emit('show');
    expect(printed).toEqual(['Lanecall is open.\n']);
    desk.window.isVisible = () => true;
    desk.tell(CHANNELS.painted);
    expect(printed).toEqual(['Lanecall is open.\n', 'Lanecall is open.\n']);
  });

  test('lets the coach’s window command, and the wall’s not', async () => {
    const { desk } = await going();
    const wall = new Page('wall');
    await wall.come();
    wall.say({ say: 'command', id: 'w', command: { do: 'stop' } });
    await vi.waitFor(() => expect(wall.told).toEqual([[CHANNELS.closed, 1]]));
    await desk.commands('mark', { do: 'mark' });
    expect(lines().map(({ say }) => say)).toEqual(['opened', 'command', 'command']);
  });

  test('comes to the front when it is asked to', async () => {
    const program = await start();
    const { window } = new Page('desk');
    new StandInWindow({}).focus();
    program.focus();
    expect(window.isFocused()).toBe(true);
  });

  test('opens a session file, and puts one that cannot be opened into the coach’s window with the reason', async () => {
    const { program, desk } = await going();
    expect(desk.told).toEqual([]);
    await program.openFile(file('b.txt'), null);
    const why = 'b.txt is in the editor, for when the run that is going is over.';
    expect(desk.told).toEqual([[CHANNELS.sessionFile, { name: 'b.txt', text: SESSION, lanesText: null, why }]]);
  });

  test('tells the coach of a fault of its own, and the run goes on', async () => {
    const { desk } = await going();
    const faulted = (error: unknown): void =>
      void process.listeners('uncaughtException').at(-1)!(error as Error, 'uncaughtException');
    faulted(new Error('No such thing.'));
    const said = (why: string): string =>
      `Something in Lanecall went wrong (${why}). The run goes on; quit Lanecall and start it again when it is over.`;
    expect(desk.notices()).toEqual([said('No such thing.')]);
    faulted('odd');
    expect(desk.notices()).toEqual([said('odd')]);
    await desk.commands('mark', { do: 'mark' });
  });

  test('keeps the machine awake while a run is going, and no longer than it lives itself', async () => {
    const blocked = (): readonly boolean[] => [0, 1].map((id) => blocker.isStarted(id));
    const program = await start();
    await program.openFile(file('a.txt'), null);
    clock.advance(10_000);
    expect(blocked()).toEqual([false, false]);
    const desk = await new Page('desk').come();
    await desk.commands('start', { do: 'start' });
    expect(blocked()).toEqual([true, true]);
    await endedBySystem();
    expect(blocked()).toEqual([false, false]);
  });

  test('lets the machine sleep again once the run is over, by itself', async () => {
    await going();
    clock.advance(8 * 60_000);
    expect(blocker.isStarted(0)).toBe(true);
    clock.advance(10 * 60_000);
    expect(blocker.isStarted(0)).toBe(false);
  });

  test('has what was called in the record as soon as it has been', async () => {
    await going();
    clock.advance(12_000);
    await vi.waitFor(() => {
      clock.advance(MOMENT);
      expect(signs().flatMap(({ leaves }) => leaves)).toHaveLength(1);
    });
  });
});

describe('[desktop] a machine that sleeps', () => {
  test('has a sign of life in the record before, and both windows are told when it wakes up', async () => {
    const { desk } = await going();
    const wall = new Page('wall');
    await writtenAfter(4000);
    monitor.emit('suspend');
    expect(signs().at(-1)?.at).toBe(4000);
    clock.sleep(60_000);
    monitor.emit('resume');
    for (const page of [desk, wall]) expect(page.told).toContainEqual([CHANNELS.woken]);
    desk.notices();
    expect(desk.heard.some((message) => 'epoch' in message && message.epoch === clock.epoch())).toBe(true);
  });

  test('tells whichever window there is', async () => {
    await start();
    const desk = new Page('desk');
    clicks('Wall screen', 'Show');
    expect(() => monitor.emit('resume')).not.toThrow();
    expect(desk.told).toEqual([[CHANNELS.woken]]);
  });
});

describe('[desktop] keys that are pressed on the wall’s window', () => {
  const press = (page: Page, key: string, more: object = {}): boolean => {
    const preventDefault = vi.fn();
    const input = { type: 'keyDown', key, code: key, shift: false, isAutoRepeat: false, ...more };
    page.window.webContents.emit('before-input-event', { preventDefault }, input);
    return preventDefault.mock.calls.length > 0;
  };

  test('go to the coach’s window and not to the wall’s page; those of the system stay', async () => {
    await start();
    const [desk, wall] = [new Page('desk'), new Page('wall')];
    expect([press(wall, 'Tab'), press(wall, 'q', { control: true })]).toEqual([false, false]);
    expect(desk.told).toEqual([]);
    expect(press(wall, 'PageDown')).toBe(true);
    const key = { key: 'PageDown', code: 'PageDown', shiftKey: false, repeat: false };
    expect([desk.told, wall.told]).toEqual([[[CHANNELS.key, key]], []]);
    expect(press(desk, 'PageDown')).toBe(false);
  });

  test('go nowhere while the coach’s window is gone', async () => {
    await start();
    const [desk, wall] = [new Page('desk'), new Page('wall')];
    app.connect({ closeWindows: () => false, end: (status) => void ended.push(status) });
    desk.window.destroy();
    expect(press(wall, 'PageDown')).toBe(true);
  });
});

describe('[desktop] the end of the program', () => {
  const REFUSED =
    'A run is going. Close this window or quit again within 10 s to end Lanecall; the run comes back when it is started again.';

  test('comes with the coach’s window; during a run it is asked for twice, and the coach told so', async () => {
    const { desk } = await going();
    new StandInWindow({}).focus();
    desk.window.close();
    expect([desk.window.isDestroyed(), desk.window.isFocused()]).toEqual([false, true]);
    expect(desk.notices()).toEqual([REFUSED]);
    clock.advance(10_000 - MOMENT);
    expect(desk.notices()).toEqual([]);
    desk.window.close();
    expect(desk.window.isDestroyed()).toBe(false);
    clock.advance(9000);
    desk.window.close();
    expect(desk.window.isDestroyed()).toBe(true);
    await vi.waitFor(() => expect(ended).toEqual([0]));
  });

  test('is not asked for twice where nothing goes', async () => {
    const program = await start();
    await program.openFile(file('a.txt'), null);
    new Page('desk').window.close();
    await vi.waitFor(() => expect(ended).toEqual([0]));
  });

  test('keeps where the windows are, and that the wall was open', async () => {
    await start();
    const [desk, wall] = [new Page('desk'), new Page('wall')];
    const bounds = { x: 40, y: 50, width: 900, height: 700 };
    desk.window.setBounds(bounds);
    monitor.emit('shutdown');
    wall.window.close();
    await vi.waitFor(() => expect(ended).toEqual([0]));
    expect(settings()).toMatchObject({ desk: bounds, wall: { shown: true } });
    newProcess();
    await start();
    expect(new Page('desk').window.getBounds()).toEqual(bounds);
  });

  test('gives up the folder with the run in it, which the next start brings back', async () => {
    await going();
    await endedBySystem();
    newProcess();
    await start();
    const desk = await new Page('desk').come();
    expect(desk.snapshots().at(-1)!.run!.commands).toHaveLength(1);
  });

  test('of a session under Windows has a sign of life in the record at once', async () => {
    const { desk } = await going();
    await writtenAfter(4000);
    desk.window.emit('session-end', {});
    expect(signs().at(-1)?.at).toBe(4000);
    await vi.waitFor(() => expect(ended).toEqual([0]));
  });
});

describe('[desktop] the wall screen', () => {
  test('goes where the menu says, which shows it, and that is kept', async () => {
    await start();
    const wall = new Page('wall');
    clock.advance(10_000);
    clicks('Wall screen', 'In a window');
    clock.advance(10_000);
    expect(wall.window.isFullScreen()).toBe(false);
    const marked = StandInMenu.getApplicationMenu()!
      .items.find(({ label }) => label === 'Wall screen')!
      .submenu!.items.filter(({ checked }) => checked);
    expect(marked.map(({ label }) => label)).toEqual(['Show', 'In a window']);
    clicks('Wall screen', 'Show');
    expect(wall.window.isDestroyed()).toBe(true);
    await endedBySystem();
    expect(settings()).toMatchObject({ wall: { shown: false, look: 'window' } });
  });

  test('whose display is away is said to the coach', async () => {
    await start();
    const desk = await new Page('desk').come();
    new Page('wall');
    clock.advance(10_000);
    const screen = electron.screen as StandInScreen;
    screen.displays = [laptop];
    screen.emit('display-removed', {}, {});
    clock.advance(10_000);
    expect(desk.notices().join()).toContain('Pool TV');
  });
});
