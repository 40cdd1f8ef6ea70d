/* The switch and what windows are told, on a clock of the test's and without a network: who hears what, and until when. */

import { beforeEach, describe, expect, test } from 'vitest';
import { THIS_MACHINE, type Guest } from '../../../app/host/sharing/doors/guest.ts';
import { Sharing } from '../../../app/host/sharing/sharing.ts';
import type { FromHost } from '../../../app/wire/messages.ts';
import { doors, join } from '../../support/host/sharing/at-the-door.ts';

const HERE = { address: '192.168.1.20', name: 'wlan0' };
const TABLET: Guest = { role: 'tablet', name: 'Tablet 1', device: 't' };

let host: Awaited<ReturnType<typeof doors>>;
let sharing: Sharing;
let pages: number | null;
/** What is there to listen at. */
let addresses: (typeof HERE)[];
let kept: (string | null)[];
let noted: object[];
let closed: string[];

beforeEach(async () => {
  host = await doors();
  [pages, addresses, kept, noted, closed] = [7525, [HERE], [], [], []];
  const { clock, book } = host;
  sharing = new Sharing({
    clock,
    timers: clock.timers,
    book,
    addresses: () => addresses,
    open: () => Promise.resolve({ close: (why) => Promise.resolve(void closed.push(why)) }),
    ports: () => ({ network: 7530, pages }),
    keep: (address) => Promise.resolve(void kept.push(address)),
    note: (what) => void noted.push(what),
  });
});

/** A coach's window: who it is by now, and what it hears besides how sharing stands. */
class Window {
  readonly heard: FromHost[] = [];
  who: Guest;

  constructor(who: Guest = THIS_MACHINE) {
    this.who = who;
  }

  readonly guest = (): Guest => this.who;

  say(message: FromHost): void {
    this.heard.push(message);
  }

  become(guest: Guest): void {
    this.who = guest;
  }
}

let ids = 0;
const wish = (window: Window, what: Parameters<Sharing['wish']>[2], id = `w${++ids}`) => sharing.wish(window, id, what);
const code = (window: Window) => sharing.toldTo(window).code;

/** Shares, and the window that wanted it has its key. */
async function shared(): Promise<Window> {
  const window = new Window();
  expect(await wish(window, { do: 'share', address: null })).toBeNull();
  return window;
}

describe('[sharing] the switch', () => {
  test('on and off is kept and noted, once each', async () => {
    expect([sharing.isOn(), sharing.address()]).toEqual([false, null]);
    const window = await shared();
    expect([sharing.isOn(), sharing.address()]).toEqual([true, 'http://192.168.1.20:7530/']);
    expect(await wish(window, { do: 'stop-sharing' })).toBeNull();
    expect(await wish(window, { do: 'stop-sharing' })).toBeNull();
    expect([sharing.isOn(), sharing.address(), kept]).toEqual([false, null, [HERE.address, null]]);
    expect(noted).toEqual([{ what: 'sharing on', address: HERE.address }, { what: 'sharing off' }]);
    expect(closed).toEqual(['Sharing has ended.']);
  });

  test('that cannot be put on keeps and notes nothing, and gives no key', async () => {
    addresses = [];
    const window = new Window();
    expect(await wish(window, { do: 'share', address: null })).toMatch(/^This machine has no address/);
    expect([kept, noted, window.heard, window.who]).toEqual([[], [], [], THIS_MACHINE]);
  });

  test('gives the page that put it on a key, and no second one where the address is changed', async () => {
    addresses = [HERE, { address: '10.0.0.5', name: 'eth0' }];
    const window = new Window();
    await wish(window, { do: 'share', address: HERE.address });
    const [told] = window.heard;
    expect(told).toMatchObject({ say: 'own-key', given: { role: 'coach', id: window.who.device } });
    expect(window.who).toMatchObject({ role: 'coach', device: expect.any(String) as string });
    await wish(window, { do: 'share', address: '10.0.0.5' });
    expect([window.heard.length, host.book.devices().length, kept]).toEqual([1, 1, [HERE.address, '10.0.0.5']]);
  });

  test('asks no page of this machine for a key where no browser finds one', async () => {
    pages = null;
    const window = await shared();
    expect([window.heard, window.who, sharing.claim('ten minutes')]).toEqual([[], THIS_MACHINE, null]);
  });

  test('asks the pages of this machine that command for a key, and leaves walls and all others be', async () => {
    const goodbyes: string[] = [];
    const come = (label: string, listener: 'machine' | 'network', kind: 'desk' | 'remote' | 'wall', guest: Guest) =>
      sharing.attendance.come({
        listener,
        guest: () => guest,
        kind: () => kind,
        clock: () => null,
        dismiss: (why) => void goodbyes.push(`${label}: ${why.slice(0, 22)}`),
      });
    come('desk', 'machine', 'desk', THIS_MACHINE);
    come('remote', 'machine', 'remote', THIS_MACHINE);
    come('wall', 'machine', 'wall', THIS_MACHINE);
    come('with a key', 'machine', 'desk', { role: 'coach', name: 'Coach’s page 1', device: 'c' });
    come('tablet', 'network', 'desk', { ...TABLET, device: null });
    await shared();
    expect(goodbyes).toEqual(['desk: Lanecall is shared now', 'remote: Lanecall is shared now']);
  });

  test('and all its timers end with the program', async () => {
    const window = await shared();
    await wish(window, { do: 'show-code', role: 'remote' });
    join(host.knock(), host.book.code()!.letters);
    await sharing.end('The program has ended.');
    expect([closed, kept.at(-1), host.clock.pending]).toEqual([['The program has ended.'], null, 0]);
  });
});

describe('[sharing] a wish', () => {
  test('that is said again, as after a lost connection, is not done again; of another device it is another', async () => {
    const window = await shared();
    await wish(window, { do: 'show-code', role: 'remote' }, 'same');
    const { letters } = host.book.code()!;
    expect(await wish(window, { do: 'show-code', role: 'remote' }, 'same')).toBeNull();
    expect(host.book.code()!.letters).toBe(letters);
    const other = new Window({ role: 'coach', name: 'Coach’s page 2', device: 'c2' });
    await wish(other, { do: 'show-code', role: 'remote' }, 'same');
    expect(host.book.code()!.letters).not.toBe(letters);
  });

  test('is remembered through 63 others, and no longer', async () => {
    const window = await shared();
    const again = async (after: number): Promise<boolean> => {
      await wish(window, { do: 'show-code', role: 'remote' }, `first-${after}`);
      const { letters } = host.book.code()!;
      for (let n = 0; n < after; n++) await wish(window, { do: 'rename-device', device: 'nobody', name: 'x' });
      await wish(window, { do: 'show-code', role: 'remote' }, `first-${after}`);
      return host.book.code()!.letters !== letters;
    };
    expect([await again(63), await again(64)]).toEqual([false, true]);
  });

  test('to let somebody in needs that it is shared', async () => {
    const window = new Window();
    for (const what of [
      { do: 'show-code', role: 'remote' },
      { do: 'hide-code' },
      { do: 'let-in', digits: '0000' },
      { do: 'another-window' },
    ] as const)
      expect(await wish(window, what)).toBe('Lanecall is not shared now: share it first.');
    expect([host.book.code(), window.heard]).toEqual([null, []]);
  });

  test('for another window is answered with an address that lets one page of this machine in', async () => {
    const window = await shared();
    expect(await wish(window, { do: 'another-window' })).toBeNull();
    const last = window.heard.at(-1)!;
    const address = last.say === 'claim' ? last.address : '';
    expect(address).toMatch(/^http:\/\/127\.0\.0\.1:7525\/#[0-9A-Z]{20}$/);
    const page = host.knock({ listener: 'machine', host: '127.0.0.1:7525' });
    expect(join(page, address.split('#')[1]!)?.given.role).toBe('coach');
  });
});

describe('[sharing] a code', () => {
  test('is told with the address it stands in, and how long it lasts, to the window that asked for it alone', async () => {
    const [window, other] = [await shared(), new Window()];
    await wish(window, { do: 'show-code', role: 'remote' });
    const { letters } = host.book.code()!;
    expect(code(window)).toEqual({
      role: 'remote',
      letters,
      address: `http://192.168.1.20:7530/remote#${letters}`,
      left: 120_000,
    });
    expect(code(other)).toBeNull();
    host.clock.advance(20_000);
    sharing.gone(other);
    expect(host.book.code()).not.toBeNull();
    await wish(other, { do: 'show-code', role: 'tablet' });
    expect([code(window), code(other)?.role]).toEqual([null, 'tablet']);
  });

  test('is void once its panel or its window is closed', async () => {
    const window = await shared();
    await wish(window, { do: 'show-code', role: 'remote' });
    await wish(window, { do: 'hide-code' });
    expect([host.book.code(), code(window)]).toEqual([null, null]);
    await wish(window, { do: 'show-code', role: 'remote' });
    sharing.gone(window);
    expect(host.book.code()).toBeNull();
  });
});

describe('[sharing] what a window is told', () => {
  test('is the same until there is news, which comes once for each change', async () => {
    const window = new Window();
    let news = 0;
    const stop = sharing.onNews(() => news++);
    const before = sharing.toldTo(window);
    expect([sharing.toldTo(window), news]).toEqual([before, 0]);
    await wish(window, { do: 'share', address: null });
    expect(news).toBeGreaterThan(0);
    expect(sharing.toldTo(window)).toMatchObject({ state: 'open', address: 'http://192.168.1.20:7530/' });
    stop();
    const heard = news;
    await wish(window, { do: 'stop-sharing' });
    expect(news).toBe(heard);
  });

  test('is who is new: for half a minute, to all but itself, and that it is over is news', async () => {
    const window = await shared();
    await wish(window, { do: 'show-code', role: 'remote' });
    join(host.knock(), host.book.code()!.letters);
    const standing = () => sharing.toldTo(window).devices.map(({ role, isNew, isYours }) => [role, isNew, isYours]);
    expect(standing()).toEqual([
      ['coach', false, true],
      ['remote', true, false],
    ]);
    let news = 0;
    sharing.onNews(() => news++);
    host.clock.advance(29_999);
    expect(standing()[1]).toEqual(['remote', true, false]);
    const before = news;
    host.clock.advance(1);
    expect([standing()[1], news > before]).toEqual([['remote', false, false], true]);
  });

  test('is which devices are connected, and how good their clocks are', async () => {
    const window = await shared();
    await wish(window, { do: 'show-code', role: 'remote' });
    const { given } = join(host.knock(), host.book.code()!.letters)!;
    const remote = () => sharing.toldTo(window).devices.find(({ id }) => id === given.id);
    expect(remote()).toMatchObject({ connected: false, clock: null });
    const leave = sharing.attendance.come({
      listener: 'network',
      guest: () => ({ role: 'remote', name: given.name, device: given.id }),
      kind: () => 'remote',
      clock: () => 'fair',
      dismiss: () => undefined,
    });
    expect(remote()).toMatchObject({ connected: true, clock: 'fair' });
    leave();
    expect(remote()).toMatchObject({ connected: false, clock: null });
  });

  test('is, to a tablet, that it lets nobody in', async () => {
    await shared();
    expect([sharing.toldTo(new Window()).mayLetIn, sharing.toldTo(new Window(TABLET)).mayLetIn]).toEqual([true, false]);
  });
});
