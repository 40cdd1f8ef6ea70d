/* A link on a device that slept, or whose page was woken: it measures anew, and finds out whether the host is there. */

import { describe, expect, test } from 'vitest';
import type { Link } from '../../../renderer/link/link.ts';
import { FakeHost, live } from './fake-host.ts';

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
