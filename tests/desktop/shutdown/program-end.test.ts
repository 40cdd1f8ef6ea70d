/* How the running program ends, what it keeps for the next start, and what that brings back. */

import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { FakeClock } from '../../support/clock/fake-clock.ts';
import { Machine, MOMENT } from '../../support/desktop/program-machine.ts';
import { StandInWindow } from '../../support/electron-stand-in/window.ts';

const electron = vi.hoisted(() => ({}) as Record<string, unknown>);
vi.mock('electron', () => electron);

const time = vi.hoisted(() => ({ clock: null as FakeClock | null }));
vi.mock('../../../app/host/time/clock.ts', async (original) => ({
  ...(await original<object>()),
  systemClock: () => time.clock,
}));
vi.mock('../../../app/host/time/timers.ts', () => ({
  systemTimers: {
    set: (call: () => void, delay: number) => time.clock!.timers.set(call, delay),
    clear: (timer: object) => time.clock!.timers.clear(timer),
  },
}));

let machine: Machine;

beforeEach(() => {
  machine = new Machine(electron);
  time.clock = machine.clock;
});
afterEach(() => machine.put());

describe('[desktop] the end of the program', () => {
  const REFUSED =
    'A run is going. Close this window or quit again within 10 s to end Lanecall; the run comes back when it is started again.';

  test('comes with the coach’s window; during a run it is asked for twice, and the coach told so', async () => {
    const { desk } = await machine.going();
    new StandInWindow({}).focus();
    desk.window.close();
    expect([desk.window.isDestroyed(), desk.window.isFocused()]).toEqual([false, true]);
    expect(desk.notices()).toEqual([REFUSED]);
    machine.clock.advance(10_000 - MOMENT);
    expect(desk.notices()).toEqual([]);
    desk.window.close();
    expect(desk.window.isDestroyed()).toBe(false);
    machine.clock.advance(9000);
    desk.window.close();
    expect(desk.window.isDestroyed()).toBe(true);
    await vi.waitFor(() => expect(machine.ended).toEqual([0]));
  });

  test('is not asked for twice where nothing goes; where the window was is kept', async () => {
    const bounds = { x: 60, y: 70, width: 900, height: 700 };
    const program = await machine.start();
    await program.openFile(machine.file('a.txt'), null);
    const { window } = machine.page('desk');
    window.setBounds(bounds);
    window.close();
    await vi.waitFor(() => expect(machine.ended).toEqual([0]));
    expect(machine.settings()).toMatchObject({ desk: bounds });
  });

  test('keeps where the windows are, and that the wall was open', async () => {
    await machine.start();
    const [desk, wall] = [machine.page('desk'), machine.page('wall')];
    const bounds = { x: 40, y: 50, width: 900, height: 700 };
    desk.window.setBounds(bounds);
    machine.monitor.emit('shutdown');
    wall.window.close();
    await vi.waitFor(() => expect(machine.ended).toEqual([0]));
    expect(machine.settings()).toMatchObject({ desk: bounds, wall: { shown: true } });
    machine.anotherProcess();
    await machine.start();
    expect(machine.page('desk').window.getBounds()).toEqual(bounds);
  });

  test('gives up the folder with the run in it, which the next start brings back', async () => {
    await machine.going();
    await machine.shutDown();
    machine.anotherProcess();
    await machine.start();
    const desk = await machine.page('desk').come();
    expect(desk.snapshots().at(-1)!.run!.commands).toHaveLength(1);
  });

  test('of a session under Windows has a sign of life in the record at once', async () => {
    const { desk } = await machine.going();
    await machine.writtenAfter(4000);
    desk.window.emit('session-end', {});
    expect(machine.signs().at(-1)?.at).toBe(4000);
    await vi.waitFor(() => expect(machine.ended).toEqual([0]));
  });
});
