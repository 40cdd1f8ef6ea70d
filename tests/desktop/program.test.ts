/* The running program put together: its windows, its host, and what comes from the system. */

import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { startProgram } from '../../app/desktop/program.ts';
import { DEFAULT_PORT } from '../../app/host/web/http-server.ts';
import { CHANNELS } from '../../app/wire/window-bridge.ts';
import type { FakeClock } from '../support/clock/fake-clock.ts';
import { Machine, MOMENT, SESSION, type WindowPage } from '../support/desktop/program-machine.ts';
import { laptop, tv } from '../support/desktop/some-displays.ts';
import { StandInMenu } from '../support/electron-stand-in/system/system.ts';
import { StandInWindow } from '../support/electron-stand-in/window.ts';
import { onPlatform } from '../support/system/bent-system.ts';

const electron = vi.hoisted(() => ({}) as Record<string, unknown>);
vi.mock('electron', () => electron);

const time = vi.hoisted(() => ({ clock: null as FakeClock | null }));
vi.mock('../../app/host/time/clock.ts', async (original) => ({
  ...(await original<object>()),
  systemClock: () => time.clock,
}));
vi.mock('../../app/host/time/timers.ts', () => ({
  systemTimers: {
    set: (call: () => void, delay: number) => time.clock!.timers.set(call, delay),
    clear: (timer: object) => time.clock!.timers.clear(timer),
  },
}));

/** Where it has listened on the network, and with which words it hung up. */
const network = vi.hoisted(() => ({ opened: [] as unknown[], goodbyes: [] as string[] }));
vi.mock('../../app/host/sharing/address/addresses.ts', async (original) => ({
  ...(await original<object>()),
  systemAddresses: () => [{ address: '192.168.1.20', name: 'wlan0' }],
}));
vi.mock('../../app/host/web/network-server.ts', () => ({
  startNetworkServer: (_: unknown, ...place: unknown[]) => {
    network.opened.push(place);
    return Promise.resolve({ close: (why: string) => Promise.resolve(void network.goodbyes.push(why)) });
  },
}));

let machine: Machine;

beforeEach(() => {
  machine = new Machine(electron);
  time.clock = machine.clock;
});
afterEach(() => machine.put());

describe('[desktop] the program', () => {
  test('opens the coach’s window and the wall’s, on the display each belongs to', async () => {
    await machine.start();
    const [desk, wall] = [machine.page('desk'), machine.page('wall')];
    expect(StandInWindow.getAllWindows()).toHaveLength(2);
    expect([desk.window.isFocused(), wall.window.isFocused()]).toEqual([true, false]);
    machine.clock.advance(10_000);
    expect([desk.window.isFullScreen(), wall.window.isFullScreen()]).toEqual([false, true]);
    expect(wall.window.getBounds()).toEqual(tv.bounds);
    expect(desk.window.getBounds()).toEqual(laptop.bounds);
  });

  test('is not started on a folder that another one is using', async () => {
    await machine.start();
    expect(await startProgram(machine.data, machine.folder)).toEqual({
      ok: false,
      why: `Another Lanecall is using ${machine.data}: end that one, or name another folder with --data.`,
    });
  });

  test('has its pages shut in before there is a window: what they may do, load and save', async () => {
    electron.BrowserWindow = class {
      constructor() {
        const { permissionHandlers } = machine.session;
        throw new Error(
          `${[...permissionHandlers.keys()].sort().join()} ${machine.session.listenerCount('will-download')}`,
        );
      }
    };
    await expect(machine.start()).rejects.toThrow('check,device,request 1');
    const loaded = async (url: string): Promise<string> => {
      let got = '';
      await machine.session.answer({
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
    await machine.start();
    const [desk, wall] = [machine.page('desk'), machine.page('wall')];
    wall.tell(CHANNELS.painted);
    expect(machine.printed).toEqual([]);
    desk.window.isVisible = () => false;
    desk.tell(CHANNELS.painted);
    expect(machine.printed).toEqual([]);
    desk.window.emit('show');
    desk.window.emit('show');
    expect(machine.printed).toEqual(['Lanecall is open.\n']);
    desk.window.isVisible = () => true;
    desk.tell(CHANNELS.painted);
    expect(machine.printed).toEqual(['Lanecall is open.\n', 'Lanecall is open.\n']);
  });

  test('lets the coach’s window command, and the wall’s not', async () => {
    const { desk } = await machine.going();
    const wall = machine.page('wall');
    await wall.come();
    wall.say({ say: 'command', id: 'w', command: { do: 'stop' } });
    await vi.waitFor(() => expect(wall.told).toEqual([[CHANNELS.closed, 1]]));
    await desk.commands('mark', { do: 'mark' });
    expect(machine.lines().map(({ say }) => say)).toEqual(['opened', 'command', 'command']);
  });

  test('comes to the front when it is asked to', async () => {
    const program = await machine.start();
    const { window } = machine.page('desk');
    new StandInWindow({}).focus();
    program.focus();
    expect(window.isFocused()).toBe(true);
  });

  test('opens a session file, and puts one that cannot be opened into the coach’s window with the reason', async () => {
    const { program, desk } = await machine.going();
    expect(desk.told).toEqual([]);
    await program.openFile(machine.file('b.txt'), null);
    const why = 'b.txt is in the editor. You can run it when this run is over.';
    expect(desk.told).toEqual([[CHANNELS.sessionFile, { name: 'b.txt', text: SESSION, lanesText: null, why }]]);
  });

  test('shares on the port of served pages, has no other window, and hangs up on everybody when it ends', async () => {
    await machine.start();
    const desk = await machine.page('desk').come();
    const answer = async (id: string, wish: object): Promise<unknown> => {
      desk.say({ say: 'sharing', id, wish });
      const found = () => desk.heard.find((message) => message.say === 'answer' && message.id === id);
      await vi.waitFor(() => expect(found()).toBeDefined());
      return found();
    };
    expect(await answer('on', { do: 'share', address: null })).toMatchObject({ ok: true });
    expect(network.opened).toEqual([['192.168.1.20', DEFAULT_PORT]]);
    expect(await answer('window', { do: 'another-window' })).toMatchObject({
      why: 'Another window is for browsers: this program has its own.',
    });
    await machine.shutDown();
    expect(network.goodbyes).toEqual(['The program has ended.']);
  });

  test('tells the coach of a fault of its own, and the run goes on', async () => {
    const { desk } = await machine.going();
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
    const blocked = (): readonly boolean[] => [0, 1].map((id) => machine.blocker.isStarted(id));
    const program = await machine.start();
    await program.openFile(machine.file('a.txt'), null);
    machine.clock.advance(10_000);
    expect(blocked()).toEqual([false, false]);
    const desk = await machine.page('desk').come();
    await desk.commands('start', { do: 'start' });
    expect(blocked()).toEqual([true, true]);
    await machine.shutDown();
    expect(blocked()).toEqual([false, false]);
  });

  test('lets the machine sleep again once the run is over, by itself', async () => {
    await machine.going();
    machine.clock.advance(8 * 60_000);
    expect(machine.blocker.isStarted(0)).toBe(true);
    machine.clock.advance(10 * 60_000);
    expect(machine.blocker.isStarted(0)).toBe(false);
  });

  test('has in the record that a run goes on, and what was called, as soon as it is so', async () => {
    const program = await machine.start();
    // Whatever the loop has to do at first is done: by itself it looks again in 250 ms.
    machine.clock.advance(10_020);
    await program.openFile(machine.file('a.txt'), null);
    machine.clock.advance(10);
    await vi.waitFor(() => expect(machine.signs()).toMatchObject([{ leaves: [] }]));
    const desk = await machine.page('desk').come();
    await desk.commands('start', { do: 'start' });
    machine.clock.advance(12_000);
    await vi.waitFor(() => {
      machine.clock.advance(MOMENT);
      expect(machine.signs().flatMap(({ leaves }) => leaves)).toHaveLength(1);
    });
  });
});

describe('[desktop] a machine that sleeps', () => {
  test('has a sign of life in the record before, and both windows are told when it wakes up', async () => {
    const { desk } = await machine.going();
    const wall = machine.page('wall');
    await machine.writtenAfter(4000);
    machine.monitor.emit('suspend');
    expect(machine.signs().at(-1)?.at).toBe(4000);
    machine.clock.sleep(60_000);
    machine.monitor.emit('resume');
    for (const page of [desk, wall]) expect(page.told).toContainEqual([CHANNELS.woken]);
    desk.notices();
    expect(desk.heard.some((message) => 'epoch' in message && message.epoch === machine.clock.epoch())).toBe(true);
  });

  test('tells whichever window there is', async () => {
    await machine.start();
    const desk = machine.page('desk');
    machine.clicks('Wall screen', 'Show');
    expect(() => machine.monitor.emit('resume')).not.toThrow();
    expect(desk.told).toEqual([[CHANNELS.woken]]);
  });
});

describe('[desktop] keys that are pressed on the wall’s window', () => {
  const press = (page: WindowPage, key: string, more: object = {}): boolean => {
    const preventDefault = vi.fn();
    const input = { type: 'keyDown', key, code: key, shift: false, isAutoRepeat: false, ...more };
    page.window.webContents.emit('before-input-event', { preventDefault }, input);
    return preventDefault.mock.calls.length > 0;
  };

  test('go to the coach’s window and not to the wall’s page; those of the system stay', async () => {
    await machine.start();
    const [desk, wall] = [machine.page('desk'), machine.page('wall')];
    expect([press(wall, 'Tab'), press(wall, 'q', { control: true })]).toEqual([false, false]);
    expect(desk.told).toEqual([]);
    expect(press(wall, 'PageDown')).toBe(true);
    const key = { key: 'PageDown', code: 'PageDown', shiftKey: false, repeat: false };
    expect([desk.told, wall.told]).toEqual([[[CHANNELS.key, key]], []]);
    expect(press(desk, 'PageDown')).toBe(false);
  });

  test('go nowhere while the coach’s window is gone', async () => {
    await machine.start();
    const [desk, wall] = [machine.page('desk'), machine.page('wall')];
    machine.app.connect({ closeWindows: () => false, end: (status) => void machine.ended.push(status) });
    desk.window.destroy();
    expect(press(wall, 'PageDown')).toBe(true);
  });
});

describe('[desktop] the wall screen', () => {
  test('goes where the menu says, which shows it, and that is kept', async () => {
    await machine.start();
    const wall = machine.page('wall');
    machine.clock.advance(10_000);
    machine.clicks('Wall screen', 'In a window');
    machine.clock.advance(10_000);
    expect(wall.window.isFullScreen()).toBe(false);
    const marked = StandInMenu.getApplicationMenu()!
      .items.find(({ label }) => label === 'Wall screen')!
      .submenu!.items.filter(({ checked }) => checked);
    expect(marked.map(({ label }) => label)).toEqual(['Show', 'In a window']);
    machine.clicks('Wall screen', 'Show');
    expect(wall.window.isDestroyed()).toBe(true);
    await machine.shutDown();
    expect(machine.settings()).toMatchObject({ wall: { shown: false, look: 'window' } });
  });

  test('whose display is away is said to the coach', async () => {
    await machine.start();
    const desk = await machine.page('desk').come();
    machine.page('wall');
    machine.clock.advance(10_000);
    machine.screen.displays = [laptop];
    machine.screen.emit('display-removed', {}, {});
    machine.clock.advance(10_000);
    expect(desk.notices().join()).toContain('Pool TV');
  });

  test('that somebody has closed stays closed at the next start', async () => {
    await machine.start();
    machine.page('wall').window.close();
    await machine.shutDown();
    machine.anotherProcess();
    await machine.start();
    expect(StandInWindow.getAllWindows().map(({ title }) => title)).toEqual(['Lanecall']);
  });

  test('is put by hand where the desktop places its windows itself, and the coach is told so', async () => {
    onPlatform('linux');
    machine.anotherProcess({ 'ozone-platform': 'wayland' });
    await machine.start();
    const desk = await machine.page('desk').come();
    machine.page('wall');
    machine.clock.advance(10_000);
    expect(desk.notices()).toEqual([expect.stringMatching(/^This desktop does not let Lanecall choose a display/)]);
  });
});
