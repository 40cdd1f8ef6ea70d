/* The switch and what windows are told, on a clock of the test's and without a network: who hears what, and until when. */

import { beforeEach, describe, expect, test } from 'vitest';
import { THIS_MACHINE, type Guest } from '../../../app/host/sharing/doors/guest.ts';
import { Sharing } from '../../../app/host/sharing/sharing.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { doors, join, show } from '../../support/host/sharing/at-the-door.ts';
import { attendant, Window } from '../../support/host/sharing/sharing-window.ts';

const HERE = { address: '192.168.1.20', name: 'wlan0' };
const ASK = 'Ask the coach for a new code. Again.';
const TABLET: Guest = { role: 'tablet', name: 'Tablet 1', device: 't' };

let host: Awaited<ReturnType<typeof doors>>;
let sharing: Sharing;
let pages: number | null;
/** What is there to listen at. */
let addresses: (typeof HERE)[];
let kept: (string | null)[];
let noted: object[];
let closed: string[];
/** What connections heard as they were hung up on. */
let goodbyes: string[];
/** Resolves when a listener may open. */
let opening: Promise<void>;

beforeEach(async () => {
  host = await doors();
  [pages, addresses, opening, kept, noted, closed, goodbyes] = [7525, [HERE], Promise.resolve(), [], [], [], []];
  sharing = sharingOf(host);
});

function sharingOf({ clock, book }: typeof host): Sharing {
  return new Sharing({
    clock,
    timers: clock.timers,
    book,
    addresses: () => addresses,
    open: () => opening.then(() => ({ close: (why) => Promise.resolve(void closed.push(why)) })),
    ports: () => ({ network: 7530, pages }),
    keep: (address) => Promise.resolve(void kept.push(address)),
    note: (what) => void noted.push(what),
  });
}

let ids = 0;
const wish = (window: Window, what: Parameters<Sharing['wish']>[2], id = `w${++ids}`) => sharing.wish(window, id, what);
const code = (window: Window) => sharing.toldTo(window).code;

/** Somebody connects; the returned function says that it has gone. */
function come(label: string, guest: Guest, at?: Parameters<typeof attendant>[2]): () => void {
  return sharing.attendance.come(attendant((said) => goodbyes.push(`${label}: ${said}`), guest, at));
}

/** A device is let in by a code that the window shows. */
async function letIn(window: Window, role: 'remote' | 'tablet' = 'remote'): Promise<Guest & { device: string }> {
  await wish(window, { do: 'show-code', role });
  const { given } = join(host.knock(), host.book.code()!.letters)!;
  return { role, name: given.name, device: given.id };
}

/** A page of this machine comes with the letters of a claim. */
const claimed = (address: string) =>
  join(host.knock({ listener: 'machine', host: '127.0.0.1:7525' }), address.split('#')[1]!);

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
    const onMachine = (kind: 'desk' | 'remote' | 'wall') => ({ listener: 'machine', kind }) as const;
    come('desk', THIS_MACHINE, onMachine('desk'));
    come('remote', THIS_MACHINE, onMachine('remote'));
    come('wall', THIS_MACHINE, onMachine('wall'));
    come('with a key', { role: 'coach', name: 'Coach’s window 1', device: 'c' }, onMachine('desk'));
    come('tablet', { ...TABLET, device: null });
    await shared();
    const why = 'Lanecall is shared now, so this page needs a key: open it by “Another window” in one that has it.';
    expect(goodbyes).toEqual([`desk: ${why}`, `remote: ${why}`]);
  });

  test('gives no key where no page wanted it, as after a crash, nor a ninth one', async () => {
    await sharing.share(null);
    expect(host.book.devices()).toEqual([]);
    await sharing.stop();
    for (let n = 0; n < 8; n++) claimed(sharing.claim('ten minutes')!);
    const window = await shared();
    expect([window.heard, window.who, host.book.devices().length]).toEqual([[], THIS_MACHINE, 8]);
  });

  test('put off, lets the coach’s pages stay without a key, and nobody else', async () => {
    const [window, tablet] = [await shared(), new Window(TABLET)];
    sharing.toldTo(window);
    sharing.toldTo(tablet);
    await wish(window, { do: 'stop-sharing' });
    expect([window.who, tablet.who]).toEqual([THIS_MACHINE, TABLET]);
  });

  test.each([
    ['sharing ends', async () => sharing.stop(), 'Sharing has ended.'],
    ['the program ends', async () => sharing.end('The program has ended.'), 'The program has ended.'],
    [
      'twelve hours have passed',
      async () => host.clock.advance(12 * 3_600_000),
      'This device was let in twelve hours ago, and a key lasts no longer.',
    ],
  ])('hangs up on devices where %s, says why, and to ask for a new code', async (_, ends, why) => {
    const window = await shared();
    come('phone', await letIn(window));
    come('tablet', await letIn(window, 'tablet'));
    await ends();
    expect(goodbyes).toEqual([`phone: ${why} ${ASK}`, `tablet: ${why} ${ASK}`]);
  });

  test('and all its timers end with the program', async () => {
    const window = await shared();
    await letIn(window);
    const wall = host.knock({ socket: 'wall' });
    await wish(window, { do: 'let-in', digits: show(wall)! });
    wall.leave();
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
    const other = new Window({ role: 'coach', name: 'Coach’s window 2', device: 'c2' });
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

  test('for another window is answered with an address that lets one page of this machine in, for ten minutes', async () => {
    const window = await shared();
    const address = async (): Promise<string> => {
      expect(await wish(window, { do: 'another-window' })).toBeNull();
      const last = window.heard.at(-1)!;
      return last.say === 'claim' ? last.address : '';
    };
    const [used, early, late] = [await address(), await address(), await address()];
    expect(used).toMatch(/^http:\/\/127\.0\.0\.1:7525\/#[0-9A-Z]{20}$/);
    expect([claimed(used)?.given.role, claimed(used)]).toEqual(['coach', null]);
    host.clock.advance(599_999);
    expect(claimed(early)?.given.role).toBe('coach');
    host.clock.advance(1);
    expect(claimed(late)).toBeNull();
  });

  test('for another window is none of a program that no browser finds', async () => {
    pages = null;
    const window = await shared();
    const why = 'Another window is for browsers: this program has its own.';
    expect(await wish(window, { do: 'another-window' })).toBe(why);
    expect(window.heard).toEqual([]);
  });

  test('to let in or to share is the coach’s alone', async () => {
    const tablet = new Window(TABLET);
    const why = 'Only the coach’s window on the machine that shares lets others in.';
    expect([await wish(tablet, { do: 'share', address: null }), sharing.isOn()]).toEqual([why, false]);
    await shared();
    expect(await wish(tablet, { do: 'show-code', role: 'remote' })).toBe(why);
    expect([await wish(tablet, { do: 'stop-sharing' }), sharing.isOn()]).toEqual([why, true]);
  });

  test('to let a wall in goes by the digits that it shows', async () => {
    const window = await shared();
    const wall = host.knock({ socket: 'wall' });
    expect(await wish(window, { do: 'let-in', digits: show(wall)! })).toBeNull();
    expect(wall.guest?.role).toBe('wall');
  });

  test('to rename a device or to throw it out may be a tablet’s, and that device alone goes', async () => {
    const window = await shared();
    const [tablet, phone] = [await letIn(window, 'tablet'), await letIn(window)];
    come('tablet', tablet);
    come('phone', phone);
    const page = new Window(tablet);
    expect(await wish(page, { do: 'rename-device', device: phone.device, name: 'Pool side' })).toBeNull();
    const names = () => sharing.toldTo(window).devices.map(({ name }) => name);
    expect(names()).toEqual(['Coach’s window 1', 'Tablet 1', 'Pool side']);
    expect(await wish(page, { do: 'throw-out', device: phone.device })).toBeNull();
    expect([goodbyes, names().length]).toEqual([[`phone: This device was thrown out. ${ASK}`], 2]);
  });

  test('to throw out the page itself, a coach’s page from a tablet or nobody is refused', async () => {
    const window = await shared();
    const tablet = new Window(await letIn(window, 'tablet'));
    const out = (by: Window, device: string | null) => wish(by, { do: 'throw-out', device: device! });
    expect(await out(window, window.who.device)).toMatch(/^That is the page you are on/);
    expect(await out(tablet, window.who.device)).toMatch(/^That is the coach’s page/);
    expect(await out(window, 'nobody')).toMatch(/^This device has been thrown out already/);
    expect(host.book.devices()).toHaveLength(2);
    const mayThrowOut = (by: Window) => sharing.toldTo(by).devices.map((device) => device.mayThrowOut);
    expect([...mayThrowOut(window), ...mayThrowOut(tablet)]).toEqual([false, true, false, false]);
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

  test('that is asked for while sharing ends is not made', async () => {
    const window = await shared();
    addresses = [HERE, { address: '10.0.0.5', name: 'eth0' }];
    let open = (): void => undefined;
    opening = new Promise((resolve) => (open = resolve));
    const wishes = [wish(window, { do: 'share', address: '10.0.0.5' }), wish(window, { do: 'stop-sharing' })];
    expect(await wish(window, { do: 'show-code', role: 'remote' })).toMatch(/^Lanecall is not shared now/);
    open();
    await Promise.all(wishes);
    expect([sharing.isOn(), host.book.code()]).toEqual([false, null]);
  });
});

describe('[sharing] what a window is told', () => {
  test('is the same until there is news, which comes once for each change', async () => {
    const window = new Window();
    let news = 0;
    const stop = sharing.onNews(() => news++);
    const before = sharing.toldTo(window);
    expect(sharing.toldTo(window)).toBe(before);
    expect(news).toBe(0);
    await wish(window, { do: 'share', address: null });
    expect(news).toBeGreaterThan(0);
    expect(sharing.toldTo(window)).toMatchObject({ state: 'open', address: 'http://192.168.1.20:7530/' });
    stop();
    const heard = news;
    await wish(window, { do: 'stop-sharing' });
    expect(news).toBe(heard);
  });

  test('is who is new: for half a minute, to all but itself, and that it is over is news, once for each', async () => {
    const window = await shared();
    host.clock.advance(60_000);
    come('phone', await letIn(window));
    host.clock.advance(10_000);
    await letIn(window, 'tablet');
    host.clock.advance(500);
    const standing = () => sharing.toldTo(window).devices.map(({ role, isNew, isYours }) => [role, isNew, isYours]);
    expect(standing()).toEqual([
      ['coach', false, true],
      ['remote', true, false],
      ['tablet', true, false],
    ]);
    const news: number[] = [];
    const now = host.clock.now() - 500;
    const timers = host.clock.pending;
    sharing.onNews(() => news.push(host.clock.now() - now));
    host.clock.advance(19_499);
    expect([standing()[1], news]).toEqual([['remote', true, false], []]);
    host.clock.advance(1);
    expect([standing()[1], standing()[2]]).toEqual([
      ['remote', false, false],
      ['tablet', true, false],
    ]);
    host.clock.advance(60_000);
    expect([standing()[2], news, host.clock.pending]).toEqual([['tablet', false, false], [20_000, 30_000], timers - 2]);
  });

  test('is no device that was let in before the host was started, however early it is', async () => {
    await letIn(await shared());
    await host.book.written();
    host = await doors({ disk: host.disk, clock: new FakeClock({ now: 1000 }) });
    sharing = sharingOf(host);
    await sharing.share(null);
    const { pending } = host.clock;
    const window = new Window();
    expect(sharing.toldTo(window).devices.map(({ role, isNew }) => [role, isNew])).toEqual([
      ['coach', false],
      ['remote', false],
    ]);
    let news = 0;
    sharing.onNews(() => news++);
    host.clock.advance(29_000);
    expect([news, host.clock.pending]).toEqual([0, pending]);
  });

  test.each([
    ['nobody', () => undefined, true],
    ['a connection of this machine', () => sharing.visited(HERE.address), true],
    ['a page of this machine', () => come('page', THIS_MACHINE, { listener: 'machine' }), true],
    ['digits on a screen of this machine', () => show(host.knock({ socket: 'wall', from: HERE.address })), false],
    ['a connection of another', () => sharing.visited('192.168.1.33'), false],
    ['a device that is in', () => come('tablet', TABLET), false],
  ])('is half a minute later whether nobody came: after %s', async (_, comes, nobodyCame) => {
    const window = await shared();
    comes();
    host.clock.advance(30_000);
    expect(sharing.toldTo(window).nobodyCame).toBe(nobodyCame);
  });

  test('is, to a tablet, that it lets nobody in', async () => {
    await shared();
    expect([sharing.toldTo(new Window()).mayLetIn, sharing.toldTo(new Window(TABLET)).mayLetIn]).toEqual([true, false]);
  });
});
