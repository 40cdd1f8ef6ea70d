/* The coach's own page while sharing is on and when it ends: nobody throws it out, and it stays connected. */

import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { systemTimers, type Timers } from '../../../app/host/time/timers.ts';
import { JOINING_VERSION } from '../../../app/wire/sharing/joining.ts';
import { MovingClock } from '../../support/clock/moving-clock.ts';
import { DoorSocket } from '../../support/host/sharing/door-socket.ts';
import { SharedDeck } from '../../support/host/deck/shared-deck.ts';

let deck: SharedDeck;

beforeEach(async () => {
  deck = await SharedDeck.start();
  await deck.host.open({ text: 'lane 1 Ana\nSquad\n8 x 50 @ 1:00\n', lanesText: null }, { replace: false });
});
afterEach(() => deck.close());

/** The coach's page of this machine that has switched sharing on, with its key. */
async function shares(on = deck): Promise<DoorSocket> {
  const coach = await DoorSocket.open({ host: on.machine });
  coach.hello('desk');
  coach.tell({ say: 'sharing', id: 'on', wish: { do: 'share', address: null } });
  await coach.hears('answer', ({ id, ok }) => id === 'on' && ok);
  return coach;
}

describe('[sharing] throwing out', () => {
  test('a tablet is told which device is its own, that it is not new to itself, and whom it may throw out', async () => {
    const coach = await shares();
    const page = await DoorSocket.open({ host: deck.network });
    const { id } = (await page.join(await coach.newCode('tablet')))!;
    page.hello('desk');
    const phone = await DoorSocket.open({ host: deck.network });
    await phone.join(await coach.newCode());
    const standing = async (desk: DoorSocket): Promise<unknown> => {
      const { devices } = await desk.told((told) => told.devices.length === 3);
      return devices.map(({ role, isNew, isYours, mayThrowOut }) => [role, isNew, isYours, mayThrowOut]);
    };
    expect(await standing(page)).toEqual([
      ['coach', true, false, false],
      ['tablet', false, true, false],
      ['remote', true, false, true],
    ]);
    expect(await standing(coach)).toEqual([
      ['coach', false, true, false],
      ['tablet', true, false, true],
      ['remote', true, false, true],
    ]);
    const own = 'That is the page you are on: throw it out from another one, or stop sharing.';
    await expect(page.wish({ do: 'throw-out', device: id })).rejects.toThrow(own);
    const { devices } = await coach.told(() => true);
    const coachId = devices.find(({ role }) => role === 'coach')!.id;
    await expect(coach.wish({ do: 'throw-out', device: coachId })).rejects.toThrow(own);
    await expect(page.wish({ do: 'throw-out', device: coachId })).rejects.toThrow(
      'That is the coach’s page: a tablet does not throw it out.',
    );
    await coach.wish({ do: 'throw-out', device: id });
    expect(await page.hears('bye')).toMatchObject({
      why: 'This device was thrown out. Ask the coach for a new code.',
      again: true,
    });
  });

  test('a key that has lasted its twelve hours is said to have ended, not to have been thrown out', async () => {
    const HOUR = 3_600_000;
    const late: (() => void)[] = [];
    const timers: Timers = {
      ...systemTimers,
      set: (call, delay) => systemTimers.set(delay > HOUR ? () => late.push(call) : call, delay > HOUR ? 0 : delay),
    };
    const clock = new MovingClock();
    const old = await SharedDeck.start({ clock, timers });
    const coach = await shares(old);
    const phone = await DoorSocket.open({ host: old.network });
    await phone.join(await coach.newCode());
    phone.hello('remote');
    await phone.hears('snapshot');
    await expect.poll(() => late.length).toBeGreaterThan(0);
    clock.moveTo(clock.now() + 12 * HOUR);
    late.forEach((call) => call());
    const why = 'This device was let in twelve hours ago, and a key lasts no longer. Ask the coach for a new code.';
    expect(await phone.hears('bye')).toMatchObject({ why, again: true });
    await old.close();
  });
});

test('[sharing] a television is called as its screen is, in both lists, when it is renamed too', async () => {
  const coach = await shares();
  const television = await DoorSocket.open({ host: deck.network, socket: 'wall' });
  television.say({ say: 'show', version: JOINING_VERSION });
  const shown = await television.heard();
  await coach.wish({ do: 'let-in', digits: shown?.say === 'digits' ? shown.digits : '' });
  await television.heard();
  television.hello('wall');
  const { name } = await television.hears('screen');
  const isCalled = (wanted: string) => coach.told(({ devices }) => devices.some((each) => each.name === wanted));
  await isCalled(name);
  coach.tell({ say: 'screen', id: 'r', name, wish: { rename: 'Far end' } });
  await isCalled('Far end');
});

describe('[sharing] its end', () => {
  test('the coach’s pages keep their connection and are answered, the others hear that it has ended', async () => {
    const coach = await shares();
    coach.tell({ say: 'sharing', id: 'w', wish: { do: 'another-window' } });
    const { address } = await coach.hears('claim');
    const window = await DoorSocket.open({ host: deck.machine });
    await window.join(address.split('#')[1]!);
    window.hello('desk');
    const phone = await DoorSocket.open({ host: deck.network });
    await phone.join(await coach.newCode());
    phone.hello('remote');
    const tablet = await DoorSocket.open({ host: deck.network });
    await tablet.join(await coach.newCode('tablet'));
    tablet.hello('desk');
    await Promise.all([window, phone, tablet].map((page) => page.hears('snapshot')));
    await coach.wish({ do: 'stop-sharing' });
    for (const page of [phone, tablet])
      expect(await page.hears('bye')).toMatchObject({
        why: 'Sharing has ended. Ask the coach for a new code.',
        again: true,
      });
    expect(await window.told(({ state }) => state === 'off')).toMatchObject({ devices: [], mayLetIn: true });
    await coach.wish({ do: 'share', address: null });
    await window.hears('bye', ({ why }) => why.startsWith('Lanecall is shared now'));
    await coach.told(({ devices }) => devices.some(({ isYours }) => isYours));
  });
});
