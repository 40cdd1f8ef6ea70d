import { describe, expect, test } from 'vitest';
import type { Link } from '../../../renderer/link/link.ts';
import { FakeHost } from './fake-host.ts';

/** A live link with a run opened when the host's clock and the run's start are the same. */
function live(): { host: FakeHost; link: Link } {
  const host = new FakeHost();
  const link = host.open();
  host.pass(1000);
  host.openRun();
  host.pass(100);
  return { host, link };
}

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

  test('calls again after at most 0.25 s, then twice as long each time up to 1.5 s', () => {
    const { host } = live();
    host.isReachable = false;
    host.cut();
    host.pass(40_000);
    const waits = host.connectedAt.slice(1).map((at, index) => at - host.connectedAt[index]!);
    expect(waits.slice(1, 8).map((wait) => wait - host.delay)).toEqual([500, 1000, 1500, 1500, 1500, 1500, 1500]);
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

  test('a closed link calls nobody any more', () => {
    const { host, link } = live();
    link.close();
    const before = host.connectedAt.length;
    host.wake();
    host.pass(60_000);
    expect(host.connectedAt.length).toBe(before);
  });
});

describe('a device that slept', () => {
  test('shows no time until the host has said it again, and then the right one', () => {
    const { host, link } = live();
    host.sleep(60_000);
    expect(link.now()).toBeNull();
    host.pass(100);
    expect(Math.abs(link.now()! - 60_200)).toBeLessThanOrEqual(10);
  });

  test('an answer that was under way while it slept is not believed', () => {
    const { host, link } = live();
    host.wake();
    host.pass(host.delay);
    // The host has answered, and the answer is on its way.
    host.sleep(60_000);
    host.pass(host.delay);
    expect(link.now()).toBeNull();
    host.pass(100);
    expect(Math.abs(link.now()! - (60_200 + 2 * host.delay))).toBeLessThanOrEqual(10);
  });

  test('a small step of the time of day hides nothing', () => {
    const { host, link } = live();
    host.wall += 700;
    expect(link.now()).not.toBeNull();
    const before = host.count('ping');
    host.pass(600);
    expect(host.count('ping') - before).toBeGreaterThanOrEqual(8);
  });
});

describe('commands', () => {
  test('a command is answered by its id', async () => {
    const { host, link } = live();
    const answer = link.command({ do: 'start' });
    host.pass(10);
    expect(host.heard[host.heard.length - 1]).toMatchObject({ say: 'command', command: { do: 'start' } });
    host.send({ say: 'answer', id: 'id-0', ok: true, at: 105, why: null });
    host.pass(10);
    expect(await answer).toEqual({ ok: true, at: 105, why: null });
  });

  test('goes with what the screen showed', () => {
    const { host, link } = live();
    void link.command({ do: 'skip', lanes: [1] }, { 1: { line: 2, rounds: [], rep: 3 } });
    host.pass(10);
    expect(host.heard[host.heard.length - 1]).toMatchObject({ seen: { 1: { line: 2, rounds: [], rep: 3 } } });
  });

  test('is sent again with the same id after a reconnection, until it is answered', async () => {
    const { host, link } = live();
    host.cut();
    const answer = link.command({ do: 'stop' });
    host.pass(1000);
    host.cut();
    host.pass(1500);
    const given = host.heard.filter((message) => message.say === 'command');
    expect(given.map(({ id }) => id)).toEqual(['id-0', 'id-0']);
    host.send({ say: 'answer', id: 'id-0', ok: false, at: null, why: 'No lane has anything pending.' });
    host.pass(10);
    expect(await answer).toEqual({ ok: false, at: null, why: 'No lane has anything pending.' });
    host.cut();
    host.pass(1000);
    expect(host.heard.filter((message) => message.say === 'command').length).toBe(2);
  });

  test('fails with a sentence after 5 s without an answer', async () => {
    const { host, link } = live();
    host.isReachable = false;
    host.cut();
    const answer = link.command({ do: 'stop' });
    host.pass(5000);
    expect(await answer).toMatchObject({ ok: false, at: null });
    expect((await answer).why).toMatch(/not answered/);
  });

  test('one too large for a message is posted', async () => {
    const { host, link } = live();
    const answer = link.command({ do: 'rewrite', text: `Main set\n# ${'x'.repeat(70_000)}\n` });
    expect(await answer).toEqual({ ok: true, at: 1234, why: null });
    expect(host.posted.length).toBe(1);
    expect(host.count('command')).toBe(0);
  });
});
