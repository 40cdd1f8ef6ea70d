/* What the coach's windows are told, and how often, while others come and go. */

import { beforeEach, describe, expect, test } from 'vitest';
import { THIS_MACHINE, type Guest } from '../../../app/host/sharing/doors/guest.ts';
import { Sharing } from '../../../app/host/sharing/sharing.ts';
import { DoorSocket } from '../../support/host/sharing/door-socket.ts';
import { SharedDeck } from '../../support/host/deck/shared-deck.ts';
import { comeBack, doors, join, show } from '../../support/host/sharing/at-the-door.ts';
import { attendant, Window } from '../../support/host/sharing/sharing-window.ts';

const MACHINE = { listener: 'machine', host: '127.0.0.1:7525' } as const;

let host: Awaited<ReturnType<typeof doors>>;
let sharing: Sharing;
let window: Window;
let ids = 0;

const wish = (what: Parameters<Sharing['wish']>[2], by = window) => sharing.wish(by, `w${++ids}`, what);
const phones = () => sharing.toldTo(window).devices.filter(({ role }) => role === 'remote');

async function phone(): Promise<Guest & { device: string }> {
  await wish({ do: 'show-code', role: 'remote' });
  const { role, name, id: device } = join(host.knock(), host.book.code()!.letters)!.given;
  return { role, name, device };
}

/** It connects; the returned function says that it has gone. */
const come = (guest: Guest): (() => void) => sharing.attendance.come(attendant(() => undefined, guest));

beforeEach(async () => {
  host = await doors();
  const { clock, book } = host;
  sharing = new Sharing({
    clock,
    timers: clock.timers,
    book,
    addresses: () => [{ address: '192.168.1.20', name: 'wlan0' }],
    open: () => Promise.resolve({ close: () => Promise.resolve() }),
    ports: () => ({ network: 7530, pages: 7525 }),
    keep: () => Promise.resolve(),
    note: () => undefined,
  });
  window = new Window(THIS_MACHINE);
  await wish({ do: 'share', address: null });
});

describe('[sharing] a window is told', () => {
  test('which devices are connected, and how good their clocks are', async () => {
    const guest = await phone();
    expect(phones()).toMatchObject([{ connected: false, clock: null }]);
    const leave = come(guest);
    host.clock.advance(500);
    expect(phones()).toMatchObject([{ connected: true, clock: 'fair' }]);
    leave();
    host.clock.advance(500);
    expect(phones()).toMatchObject([{ connected: false, clock: null }]);
  });

  test('of them twice a second at most, however often they come and go, and at once of what the coach wants', async () => {
    const guest = await phone();
    host.clock.advance(1000);
    const began = host.clock.now();
    const news: string[] = [];
    sharing.onNews(() =>
      news.push(
        `${host.clock.now() - began}: ${phones()
          .map((each) => each.connected)
          .join()}`,
      ),
    );
    for (let n = 0; n < 100; n++) {
      const leave = come(guest);
      sharing.attendance.news();
      const wall = host.knock({ socket: 'wall', from: `192.168.1.${n}` });
      show(wall);
      wall.leave();
      if (n < 99) leave();
      host.clock.advance(9);
    }
    expect(news).toEqual(['0: true', '500: false']);
    await wish({ do: 'rename-device', device: guest.device, name: 'Far end' });
    expect(phones()).toMatchObject([{ name: 'Far end', connected: true }]);
    host.clock.advance(10_000);
    expect(news).toEqual(['0: true', '500: false', '900: true', '1000: true']);
  });

  test('of its code as long as it shows it, though another window closes its panel', async () => {
    const other = new Window(window.who);
    await wish({ do: 'show-code', role: 'remote' }, other);
    await wish({ do: 'hide-code' });
    expect(sharing.toldTo(other).code).not.toBeNull();
    await wish({ do: 'hide-code' }, other);
    expect(host.book.code()).toBeNull();
  });
});

describe('[sharing] a device that comes back', () => {
  test('opens with its key only the door at which it got it: the coach’s page that of this machine', async () => {
    const { given } = join(host.knock(), host.book.showCode('tablet').letters)!;
    const own = window.heard.flatMap((each) => (each.say === 'own-key' ? [each.given] : []))[0]!;
    for (const [line, key] of [[{}, own] as const, [MACHINE, given] as const]) {
      const caller = host.knock(line);
      expect(comeBack(caller, key)).toBeNull();
      const why = 'This device is not let in any more: ask the coach for a code.';
      expect([caller.bye(), caller.guest]).toEqual([{ why, again: true }, null]);
    }
    expect([comeBack(host.knock(MACHINE), own), comeBack(host.knock(), given)]).not.toContain(null);
  });

  test('may ask no more than before', async () => {
    const deck = await SharedDeck.start();
    try {
      const coach = await DoorSocket.open({ host: deck.machine });
      coach.hello('desk');
      coach.tell({ say: 'sharing', id: 'w', wish: { do: 'share', address: null } });
      const key = (await coach.hears('own-key')).given;
      const asks = async (n: number): Promise<number> => {
        const page = await DoorSocket.open({ host: deck.machine });
        await page.comeBack(key);
        page.hello('desk');
        for (let each = 0; each < n; each++) {
          page.tell({ say: 'ask', id: `q${each}`, method: 'PUT', path: '/session', body: '{}' });
        }
        return (await page.hears('reply', ({ id }) => id === `q${n - 1}`)).status;
      };
      expect([await asks(20), await asks(5)]).toEqual([400, 429]);
    } finally {
      await deck.close();
    }
  });
});
