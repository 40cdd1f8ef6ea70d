/* A link on a device that slept, or whose page was woken: it measures anew, and finds out whether the host is there. */

import { describe, expect, test } from 'vitest';
import type { Link } from '../../../../renderer/link/link.ts';
import { FakeHost, live } from '../fake-host.ts';

describe('a page that is woken', () => {
  test('on a live link measures anew, and does not connect again', () => {
    const { host } = live();
    host.pass(10_000);
    const pings = host.count('ping');
    host.wake();
    host.pass(500);
    expect(host.count('ping') - pings).toBe(8);
    expect(host.connectedAt).toHaveLength(1);
  });

  test('that nothing ran in for ten seconds hears what stands in line first', () => {
    const { host, link } = live();
    host.pass(10_000);
    host.delay = 1900;
    host.pass(2000);
    host.now += 10_000;
    host.wall += 10_000;
    host.delay = 100;
    host.wake();
    host.pass(10_000);
    expect(link.store.getState().status).toBe('live');
    expect(host.connectedAt).toHaveLength(1);
  });

  test('while it connects does nothing of either', () => {
    const host = new FakeHost();
    host.delay = 1000;
    host.open();
    host.pass(500);
    for (let time = 0; time < 3; time++) host.wake();
    host.pass(1500);
    expect(host.heard.map(({ say }) => say)).toEqual(['hello', 'ping']);
    expect(host.connectedAt).toHaveLength(1);
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

  test('measures anew where nobody asks for the time, too: with its next ping', () => {
    const { host } = live();
    host.pass(10_000);
    const before = host.count('ping');
    host.sleep(60_000);
    host.pass(2500);
    expect(host.count('ping') - before).toBeGreaterThanOrEqual(8);
  });

  /** A screen that asks for the time at every frame. */
  function frames(host: FakeHost, link: Link, ms: number): void {
    for (let passed = 0; passed < ms; passed += 16) {
      link.now();
      host.pass(16);
    }
  }

  test('sends no more pings however often it is asked for the time', () => {
    const { host, link } = live();
    host.pass(10_000);
    const before = host.count('ping');
    frames(host, link, 4000);
    expect(host.count('ping') - before).toBeLessThanOrEqual(2);
    host.delay = 100;
    host.sleep(60_000);
    frames(host, link, 2000);
    expect(host.count('ping') - before).toBeLessThanOrEqual(20);
  });

  test.each([true, false])('gives a host up that no longer answers, asked for the time or not: %o', (asked) => {
    const { host, link } = live();
    host.pass(10_000);
    host.answersPings = false;
    host.sleep(60_000);
    if (asked) frames(host, link, 12_000);
    else host.pass(12_000);
    expect(host.connectedAt.length).toBeGreaterThan(1);
  });

  test('gives a connection up that does not open, though it is asked for the time', () => {
    const { host, link } = live();
    host.delay = 60_000;
    host.cut();
    host.sleep(60_000);
    frames(host, link, 20_000);
    expect(host.connectedAt.length).toBeGreaterThanOrEqual(3);
  });
});

describe('[link] a phone that was locked for ten minutes', () => {
  const LOCKED = 600_000;

  /** Nothing runs in its page meanwhile; its own clock stands still, or runs on. */
  function lock(host: FakeHost, own: 'stands still' | 'runs on'): void {
    if (own === 'stands still') return host.sleep(LOCKED);
    host.now += LOCKED;
    host.wall += LOCKED;
  }

  /** The run goes on without it, and the network forgets the connection: nothing comes of it any more, not even its end. */
  function meanwhile(host: FakeHost, { isForgotten }: { readonly isForgotten: boolean }): void {
    if (isForgotten) host.forget();
    host.run = { ...host.run!, commands: [...host.run!.commands, { at: 300_000, command: { do: 'start' } }] };
    if (!isForgotten) host.sendSnapshot();
  }

  const cases = (['stands still', 'runs on'] as const).flatMap((own) =>
    [true, false].map((isForgotten) => [own, isForgotten] as const),
  );

  test.each(cases)(
    'whose clock %s is right within a second of being woken, its connection forgotten: %o',
    (own, isForgotten) => {
      const { host, link } = live();
      host.delay = 40;
      host.pass(10_000);
      lock(host, own);
      meanwhile(host, { isForgotten });
      host.wake();
      host.pass(1000);
      const truth = host.now + host.ahead - host.run!.openedAt;
      expect(Math.abs(link.now()! - truth)).toBeLessThanOrEqual(10);
      expect(link.store.getState()).toMatchObject({ status: 'live', run: { state: { phase: 'going' } } });
      expect(link.store.getState().clockQuality?.quality).not.toBe('poor');
    },
  );

  test('is right within a second, too, where it had lost the host before', () => {
    const { host, link } = live();
    host.isReachable = false;
    host.cut();
    host.pass(60_000);
    lock(host, 'stands still');
    host.isReachable = true;
    host.wake();
    host.pass(1000);
    expect(link.store.getState().status).toBe('live');
    expect(Math.abs(link.now()! - (host.now + host.ahead - host.run!.openedAt))).toBeLessThanOrEqual(5);
  });

  test('calls anew where a connection that was being made when it was locked does not come about', () => {
    const { host, link } = live();
    host.cut();
    host.pass(252);
    host.forget();
    lock(host, 'stands still');
    host.wake();
    host.pass(1500);
    expect(link.store.getState().status).toBe('live');
  });

  test('that hears nothing for a third of a second because its page is busy does not call anew', () => {
    const { host, link } = live();
    host.pass(10_000);
    host.wake();
    host.pass(4);
    // Its answers stand in line behind the timer.
    host.delay = 390;
    host.pass(400);
    expect(host.connectedAt).toHaveLength(1);
    expect(link.store.getState().status).toBe('live');
  });
});
