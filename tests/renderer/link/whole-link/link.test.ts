import { describe, expect, test, vi } from 'vitest';
import { WIRE_VERSION } from '../../../../app/wire/messages.ts';
import type { Carrier } from '../../../../renderer/link/connection/carrier.ts';
import { createLink } from '../../../../renderer/link/link.ts';
import { FakeHost, live } from '../fake-host.ts';

describe('connecting', () => {
  test('a screen says hello first, and is live once the host is heard and its time known', () => {
    const host = new FakeHost();
    const link = host.open();
    expect(link.store.getState().status).toBe('connecting');
    host.pass(1000);
    expect(host.heard[0]).toMatchObject({ say: 'hello', screen: 'wall' });
    expect(link.store.getState()).toMatchObject({ status: 'live', run: null, faults: [] });
    expect(link.now()).toBeNull();
  });

  test('eight pings come in the first half second, then one every two seconds', () => {
    const host = new FakeHost();
    host.open();
    host.pass(600);
    expect(host.count('ping')).toBe(8);
    host.pass(20_000);
    expect(host.count('ping')).toBe(18);
  });

  test('before the host is heard nothing is known, and nobody is said to sound', () => {
    expect(new FakeHost().open().store.getState()).toEqual({
      status: 'connecting',
      times: null,
      lostSince: null,
      clockQuality: null,
      run: null,
      poolClock: null,
      screens: { desk: 0, wall: 0, remote: 0 },
      notices: [],
      startUp: null,
      sound: { more: null, screens: [] },
      screen: null,
      naming: false,
      wallScreens: [],
      sharing: null,
      claim: null,
      faults: [],
    });
  });

  test('nothing is said before the connection is open, however long that takes', () => {
    const host = new FakeHost();
    host.delay = 3000;
    host.open();
    host.pass(10_000);
    expect(host.heard[0]).toMatchObject({ say: 'hello' });
  });

  test("the run's t is host time since the run was opened, right to half the delay", () => {
    const { host, link } = live();
    expect(Math.abs(link.now()! - 100)).toBeLessThanOrEqual(5);
    host.pass(60_000);
    expect(Math.abs(link.now()! - 60_100)).toBeLessThanOrEqual(5);
  });

  test('t is never before the last command, by whose time it is folded', () => {
    const { host, link } = live();
    host.accept(5000, { do: 'start' });
    host.pass(10);
    expect(link.now()).toBe(5000);
  });
});

describe('following the run', () => {
  test('a longer list of commands is folded on top of what was folded before', () => {
    const { host, link } = live();
    host.accept(90, { do: 'start' });
    host.pass(10);
    const { run } = link.store.getState();
    expect(run!.state.phase).toBe('going');
    host.accept(12_000, { do: 'stop' });
    host.pass(10);
    const after = link.store.getState().run!;
    expect(after.commands.map(({ command }) => command.do)).toEqual(['start', 'stop']);
    expect(after.plan).toBe(run!.plan);
  });

  test('the same list again changes nothing of the state', () => {
    const { host, link } = live();
    host.accept(90, { do: 'start' });
    host.pass(10);
    const { state } = link.store.getState().run!;
    host.sendSnapshot();
    host.pass(10);
    expect(link.store.getState().run!.state).toBe(state);
  });

  test('a list that is not the one before gone on is folded from the beginning', () => {
    const { host, link } = live();
    host.accept(90, { do: 'start' });
    host.pass(10);
    host.run = { ...host.run!, commands: [] };
    host.sendSnapshot();
    host.pass(10);
    expect(link.store.getState().run!.state.phase).toBe('waiting');
  });

  test('what comes of a run is no reason to measure anew', () => {
    const { host } = live();
    host.pass(10_000);
    const pings = host.count('ping');
    host.accept(9000, { do: 'start' });
    host.sendSnapshot();
    host.pass(1500);
    expect(host.count('ping') - pings).toBeLessThanOrEqual(1);
  });

  test('one who follows the deck and throws keeps nobody else from it', () => {
    const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    const { host, link } = live();
    const heard: (string | undefined)[] = [];
    const stop = link.store.subscribe(() => {
      throw new Error('no room for this one');
    });
    link.store.subscribe(({ run }) => heard.push(run?.state.phase));
    host.accept(90, { do: 'start' });
    host.pass(10);
    expect(heard).toEqual(['going']);
    expect(told.mock.calls.map(([words]) => words as string)).toEqual([
      'Lanecall, following the deck: no room for this one',
    ]);
    stop();
    told.mockRestore();
  });

  test('what the host says goodbye with stands on the screen', () => {
    const { host, link } = live();
    host.send({ say: 'bye', why: 'Too many messages.', version: WIRE_VERSION });
    host.pass(10);
    expect(link.store.getState().faults).toEqual(['Too many messages.']);
  });

  test('another run begins anew', () => {
    const { host, link } = live();
    host.accept(90, { do: 'start' });
    host.pass(10);
    host.openRun('run-2');
    host.pass(20);
    expect(link.store.getState().run).toMatchObject({ id: 'run-2', commands: [] });
    expect(link.store.getState().run!.state.phase).toBe('waiting');
  });

  test('a rewrite is folded with its text, which comes by its hash', () => {
    const { host, link } = live();
    host.sendText('Main set\n4 x 50 fast @ 1:00\n\nSwim-down\n200 easy\n', 'b'.repeat(16));
    host.accept(90, { do: 'rewrite', textHash: 'b'.repeat(16) });
    host.pass(20);
    const { run } = link.store.getState();
    expect(run!.state.plan.session.parts.map(({ name }) => name)).toEqual(['Main set', 'Swim-down']);
  });

  test('a run that cannot be followed is not shown, and the screen says so', () => {
    const { host, link } = live();
    host.accept(90, { do: 'fly' });
    host.pass(10);
    expect(link.store.getState()).toMatchObject({
      run: null,
      faults: ['This screen cannot follow the run: reload it.'],
    });
  });

  test('a snapshot of another version is not read, and the screen says so', () => {
    const { host, link } = live();
    host.sendSnapshot(99);
    host.pass(10);
    expect(link.store.getState().run).toBeNull();
    expect(link.store.getState().faults).toEqual(['This page is older than the program: reload it.']);
  });

  test('a message that is none is passed over', () => {
    const { host, link } = live();
    host.send({ say: 'nonsense' } as never);
    host.pass(10);
    expect(link.store.getState().status).toBe('live');
  });
});

describe('losing the host', () => {
  test('the clock runs on, and the link says since when it is lost', () => {
    const { host, link } = live();
    host.isReachable = false;
    host.cut();
    host.pass(3000);
    expect(link.store.getState().status).toBe('lost');
    expect(link.lostFor()).toBe(3000);
    expect(Math.abs(link.now()! - 3100)).toBeLessThanOrEqual(5);
  });

  test.each([
    ['on this machine', 1500, [500, 1000, 1500, 1500, 1500, 1500, 1500]],
    ['on the network', 8000, [500, 1000, 2000, 4000, 8000, 8000, 8000]],
  ])('calls a host %s again after at most 0.25 s, then twice as long each time up to %i ms', (_, longest, pauses) => {
    const host = new FakeHost();
    host.longestPause = longest;
    host.open();
    host.pass(1000);
    host.isReachable = false;
    host.cut();
    host.pass(60_000);
    const waits = host.connectedAt.slice(1).map((at, index) => at - host.connectedAt[index]!);
    expect(waits.slice(1, 8).map((wait) => wait - host.delay)).toEqual(pauses);
  });

  test('waits a random share of that, so that screens do not call all at once', () => {
    const { host } = live();
    host.chance = 0.5;
    host.cut();
    const before = host.connectedAt.length;
    host.pass(124);
    expect(host.connectedAt.length).toBe(before);
    host.pass(1);
    expect(host.connectedAt.length).toBe(before + 1);
  });

  test('calls at once when the network or the page is back', () => {
    const { host, link } = live();
    host.isReachable = false;
    host.cut();
    host.pass(30_000);
    host.isReachable = true;
    const before = host.connectedAt.length;
    host.wake();
    expect(host.connectedAt.length).toBe(before + 1);
    host.pass(100);
    expect(link.store.getState()).toMatchObject({ status: 'live', lostSince: null });
    expect(link.lostFor()).toBeNull();
  });

  test('a host that says nothing for 6 s is called anew', () => {
    const { host, link } = live();
    host.answersPings = false;
    host.pass(9000);
    expect(host.connectedAt.length).toBeGreaterThan(1);
    host.answersPings = true;
    host.pass(1000);
    expect(link.store.getState().status).toBe('live');
  });

  test('a host that was started again has another time: run and clock go over to it together', () => {
    const { host, link } = live();
    host.pass(10_000);
    const before = link.now()!;
    host.cut();
    // The new process counts from nearly nothing, and says so of the same run.
    const shift = 500_000;
    host.ahead -= shift;
    host.epoch = 'second';
    host.run = { ...host.run!, openedAt: host.run!.openedAt - shift };
    for (let passed = 0; passed < 1000; passed += 10) {
      host.pass(10);
      expect(Math.abs(link.now()! - (before + passed + 10))).toBeLessThanOrEqual(10);
    }
    expect(link.store.getState().status).toBe('live');
  });

  test('a jump of its clock is followed within a round trip and measured in a burst, whenever it comes', () => {
    for (let since = 0; since < 2000; since += 130) {
      const { host, link } = live();
      host.pass(10_000 + since);
      const before = link.now()!;
      const pings = host.count('ping');
      host.ahead += 600_000;
      host.epoch = 'second';
      host.sendSnapshot();
      // The snapshot's way, and a ping's there and back.
      host.pass(3 * host.delay);
      expect(Math.abs(link.now()! - (before + 600_000 + 3 * host.delay))).toBeLessThanOrEqual(5);
      host.pass(500);
      expect(host.count('ping') - pings).toBeGreaterThanOrEqual(8);
    }
  });

  test('snapshots that come while a jump is measured do not make more pings of it', () => {
    const { host } = live();
    host.pass(10_000);
    host.epoch = 'second';
    const pings = host.count('ping');
    for (let sent = 0; sent < 40; sent++) {
      host.sendSnapshot();
      host.pass(1);
    }
    host.pass(1000);
    expect(host.count('ping') - pings).toBeLessThanOrEqual(9);
  });

  test('a network that takes four seconds there and back is slow, not lost', () => {
    const { host, link } = live();
    host.delay = 1990;
    host.pass(60_000);
    expect(link.store.getState().status).toBe('live');
    expect(host.connectedAt).toHaveLength(1);
  });

  test('a carrier that is closed at once is called again', () => {
    let calls = 0;
    const closed: Carrier = {
      patience: 6000,
      longestPause: 1500,
      connect(heard) {
        calls++;
        heard.closed();
        return { send: () => undefined, close: () => undefined };
      },
    };
    const host = new FakeHost();
    const link = createLink('wall', closed, host.ports());
    host.pass(1000);
    expect(calls).toBe(3);
    link.close();
  });
});
