/*
 * Every way out of the program: who is asked during a run, and who is not.
 */

import { EventEmitter } from 'node:events';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { listenForEndings, watchSessionEnd, type Endings } from '../../../app/desktop/shutdown/endings.ts';
import { mayLeave, wayOut } from '../../../app/desktop/shutdown/way-out.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { StandInApp } from '../../support/electron-stand-in/app.ts';

const electron = vi.hoisted(() => ({ app: null as unknown, powerMonitor: null as unknown }));
vi.mock('electron', () => electron);

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

let app: StandInApp;
let monitor: EventEmitter;
let clock: FakeClock;
let isGoing: boolean;
let heard: string[];
let endings: Endings;
let before: Map<string, readonly unknown[]>;

beforeEach(() => {
  app = new StandInApp();
  monitor = new EventEmitter();
  electron.app = app;
  electron.powerMonitor = monitor;
  clock = new FakeClock();
  isGoing = true;
  heard = [];
  app.connect({ closeWindows: () => true, end: (status) => void heard.push(`ended with ${status}`) });
  endings = {
    wayOut: wayOut({
      timers: clock.timers,
      now: () => clock.now(),
      isGoing: () => isGoing,
      tell: (sentence) => void heard.push(sentence === null ? 'told nothing' : 'told'),
      show: () => void heard.push('shown'),
    }),
    end: () => Promise.resolve().then(() => void heard.push('written')),
    endNow: () => void heard.push('written at once'),
  };
  before = new Map(SIGNALS.map((signal) => [signal, process.listeners(signal)]));
  listenForEndings(endings);
});

afterEach(() => {
  for (const signal of SIGNALS) {
    for (const listener of process.listeners(signal)) {
      if (!before.get(signal)!.includes(listener)) process.off(signal, listener);
    }
  }
});

/** What a handler of the program's own would be called with. */
function signalled(signal: NodeJS.Signals): void {
  const own = process.listeners(signal).find((listener) => !before.get(signal)!.includes(listener));
  own!(signal);
}

describe('[desktop] a way out', () => {
  test.each<[string, boolean, number | null, number, boolean]>([
    ['is open without a run', false, null, 0, true],
    ['is not open at the first time during a run', true, null, 0, false],
    ['is open at the second', true, 1000, 11_000, true],
    ['is not open to one that comes much later', true, 1000, 11_001, false],
  ])('%s', (_, going, refusedAt, now, expected) => {
    expect(mayLeave(going, refusedAt, now)).toBe(expected);
  });

  test("from the menu, a key or the Dock asks in the coach's window during a run, and leaves at the second time", async () => {
    app.quit();
    expect(heard).toEqual(['shown', 'told']);
    clock.advance(5000);
    app.quit();
    await vi.waitFor(() => expect(heard).toEqual(['shown', 'told', 'written', 'ended with 0']));
  });

  test('that nobody takes is forgotten with its sentence', () => {
    app.quit();
    clock.advance(10_500);
    expect(heard).toEqual(['shown', 'told', 'told nothing']);
    app.quit();
    expect(heard.slice(3)).toEqual(['shown', 'told']);
  });

  test("that the coach's window has let somebody take is not asked about again", async () => {
    expect([endings.wayOut.mayLeave(), endings.wayOut.mayLeave()]).toEqual([false, true]);
    app.quit();
    await vi.waitFor(() => expect(heard.slice(2)).toEqual(['written', 'ended with 0']));
  });

  test.each(SIGNALS)('by %s asks nobody, and writes the end first', async (signal) => {
    signalled(signal);
    await vi.waitFor(() => expect(heard).toEqual(['written', 'ended with 0']));
  });

  test("by the system's own end asks nobody, and has the system wait", async () => {
    const preventDefault = vi.fn();
    monitor.emit('shutdown', { preventDefault });
    expect(preventDefault).toHaveBeenCalled();
    await vi.waitFor(() => expect(heard).toEqual(['written', 'ended with 0']));
  });

  test('by the end of a session under Windows writes at once, because nothing later may come', async () => {
    const window = new EventEmitter();
    watchSessionEnd(window as never, endings);
    window.emit('session-end', { reasons: ['logoff'] });
    expect(heard).toEqual(['written at once']);
    await vi.waitFor(() => expect(heard.slice(1)).toEqual(['written', 'ended with 0']));
  });

  test('of the system leaves too where it cannot be held up', async () => {
    monitor.emit('shutdown');
    await vi.waitFor(() => expect(heard).toEqual(['written', 'ended with 0']));
  });

  test('that is not open says what is so and what to do', () => {
    const told: (string | null)[] = [];
    const { timers } = clock;
    const ports = { timers, now: () => 0, isGoing: () => true, tell: (said: string | null) => void told.push(said) };
    wayOut({ ...ports, show: () => undefined }).mayLeave();
    expect(told).toEqual([
      'A run is going. Close this window or quit again within 10 s to end Lanecall; ' +
        'the run comes back when it is started again.',
    ]);
  });
});
