/*
 * Sleep: kept off while a run goes, and made nothing of where it comes all the same.
 */

import { EventEmitter } from 'node:events';
import { beforeEach, describe, expect, test, vi } from 'vitest';
import { keepsAwake, stayAwake, watchSleep } from '../../app/desktop/power.ts';
import { HOUR, MINUTE, SECOND } from '../../app/core/units.ts';
import { DeckHost } from '../../app/host/deck/deck-host.ts';
import type { OpenRun } from '../../app/host/deck/open-run.ts';
import { JournalFile } from '../../app/host/journal/journal-file.ts';
import { startLoop } from '../../app/host/time/loop.ts';
import { Deck } from '../support/run/deck.ts';
import { FakeClock } from '../support/clock/fake-clock.ts';
import { FakeDisk } from '../support/host/folders/fake-disk.ts';
import { FreeFolder } from '../support/system/free-folder.ts';
import { StandInPowerSaveBlocker } from '../support/electron-stand-in/system/system.ts';

const electron = vi.hoisted(() => ({ powerMonitor: null as unknown, powerSaveBlocker: null as unknown }));
vi.mock('electron', () => electron);

let clock: FakeClock;
let disk: FakeDisk;
let host: DeckHost;
let journal: JournalFile;
let blocker: StandInPowerSaveBlocker;
let monitor: EventEmitter;

beforeEach(async () => {
  monitor = new EventEmitter();
  blocker = new StandInPowerSaveBlocker();
  electron.powerMonitor = monitor;
  electron.powerSaveBlocker = blocker;
  clock = new FakeClock();
  disk = new FakeDisk();
  const ports = { guard: new FreeFolder(), tell: () => undefined };
  journal = new JournalFile({ disk, folder: 'runs', boot: 'boot', timers: clock.timers, ...ports });
  host = new DeckHost({ clock, timers: clock.timers, journal, newId: () => 'run' });
  const text = 'start on 1\nMain set\n2 x 50 free @ 1:00\nSwim-down\n100 easy';
  await host.open({ text, lanesText: null }, { replace: false });
});

function started(): number {
  return [0, 1, 2, 3, 4, 5].filter((id) => blocker.isStarted(id)).length;
}

describe('[power] the machine', () => {
  test('stays awake from the start of a run to its end, both displays and machine, once', async () => {
    const awake = stayAwake(host, clock);
    const loop = startLoop(clock, clock.timers, [awake]);
    clock.advance(30 * SECOND);
    expect(started()).toBe(0);
    await host.command('a', { do: 'start' });
    expect(started()).toBe(2);
    clock.advance(30 * SECOND);
    await host.command('b', { do: 'stop' });
    expect(started()).toBe(2);
    await host.command('c', { do: 'finish' });
    clock.advance(6 * SECOND);
    expect(started()).toBe(0);
    loop.stop();
  });

  test('may sleep again when a run has been forgotten for an hour, or the program ends', async () => {
    const awake = stayAwake(host, clock);
    const loop = startLoop(clock, clock.timers, [awake]);
    await host.command('a', { do: 'start' });
    clock.advance(HOUR);
    expect(started()).toBe(2);
    clock.advance(3 * 60 * SECOND);
    expect(started()).toBe(0);
    await host.command('b', { do: 'mark' });
    expect(started()).toBe(2);
    awake.stop();
    expect(started()).toBe(0);
    loop.stop();
  });

  test('stays awake where a run goes already when the program begins, displays and all', async () => {
    await host.command('a', { do: 'start' });
    const start = vi.spyOn(blocker, 'start');
    const loop = startLoop(clock, clock.timers, [stayAwake(host, clock)]);
    clock.advance(1);
    expect(start.mock.calls).toEqual([['prevent-display-sleep'], ['prevent-app-suspension']]);
    loop.stop();
  });

  test('is looked after every five seconds, and no oftener', () => {
    const awake = stayAwake(host, clock);
    const look = vi.spyOn(host, 'current');
    const looks = (to: number): number => {
      clock.advance(to - clock.now());
      awake.take({ from: to - 1, to });
      return look.mock.calls.length;
    };
    const begin = clock.now();
    expect([awake.due(begin), looks(begin), awake.due(begin)]).toEqual([begin, 1, begin + 5000]);
    expect([looks(begin + 4999), looks(begin + 5000), looks(begin + 5001)]).toEqual([1, 2, 2]);
    expect(awake.due(begin + 20_000)).toBe(begin + 20_000);
  });

  test('may sleep where no session is open', () => {
    const other = new DeckHost({ clock, timers: clock.timers, journal, newId: () => 'run' });
    stayAwake(other, clock);
    other.tell('a test', 'something new');
    expect(started()).toBe(0);
  });

  test('that goes to sleep leaves a sign of life on the disk before it does', async () => {
    watchSleep(host, clock, journal, () => undefined);
    await host.command('a', { do: 'start' });
    const safe = () => new TextDecoder().decode([...disk.safe.values()][0]);
    expect(safe()).not.toContain('alive');
    clock.advance(1234);
    monitor.emit('suspend');
    expect(safe().trim().split('\n').pop()).toContain('"say":"alive","leaves":[],"at":1234');
  });

  test('that wakes up has its sleep found before the windows are told', () => {
    const order: string[] = [];
    clock.onJump(({ slept }) => order.push(`slept ${slept}`));
    watchSleep(host, clock, journal, () => order.push('told'));
    clock.sleep(600_000);
    monitor.emit('resume');
    expect(order).toEqual(['slept 600000', 'told']);
  });

  test('that sleeps without a run writes nothing', () => {
    const other = new DeckHost({ clock, timers: clock.timers, journal, newId: () => 'run' });
    watchSleep(other, clock, journal, () => undefined);
    monitor.emit('suspend');
    expect(new TextDecoder().decode([...disk.files.values()][0])).not.toContain('alive');
  });
});

describe('[power] displays stay on', () => {
  const TEXT = 'start on 1\nlane 1\nMain set\n4 x 50 free @ 1:00\nSwim-down\n100 easy';
  const started = runOf(new Deck(TEXT).at(0, { do: 'start' }), 0);

  test.each<[string, Pick<OpenRun, 'state' | 'commands'>, number, boolean]>([
    ['not for a session that is only open', { ...started, commands: [] }, 0, false],
    ['from the start on', started, 1, true],
    ['between the stretches', started, 10 * MINUTE, true],
    ['for less than an hour after the last leave', started, 3 * MINUTE + 10 * SECOND + HOUR - 1, true],
    ['not when nothing has happened for an hour', started, 3 * MINUTE + 10 * SECOND + HOUR, false],
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
