/* How good the clock of a screen is: found, told to the host, and less while nobody answers. */

import { describe, expect, test } from 'vitest';
import { FakeHost, live } from '../fake-host.ts';

describe('[link] how good the clock is', () => {
  test('is known, and told to the host, when the first burst has found the time', () => {
    const host = new FakeHost();
    host.delay = 12;
    const link = host.open();
    const seen: unknown[] = [];
    link.store.subscribe(({ clockQuality }) => seen.push(clockQuality));
    host.pass(2000);
    expect(new Set(seen)).toEqual(new Set([null, { quality: 'good', bound: 15 }]));
    expect(host.heard.filter(({ say }) => say === 'clock')).toEqual([{ say: 'clock', quality: 'good', bound: 15 }]);
  });

  test('is not said before the whole of that burst is there: its first answer may be slow', () => {
    const host = new FakeHost();
    host.delay = 120;
    host.open();
    // The first answer has come, on a connection that took 120 ms too.
    host.pass(370);
    host.delay = 5;
    host.pass(2000);
    expect(host.heard.filter(({ say }) => say === 'clock')).toMatchObject([{ quality: 'good' }]);
  });

  test('gets less while the host is away, and is told anew on each connection and with each change', () => {
    const { host, link } = live();
    host.isReachable = false;
    host.cut();
    host.pass(15 * 60_000);
    expect(link.store.getState().clockQuality).toMatchObject({ quality: 'fair' });
    host.pass(30 * 60_000);
    expect(link.store.getState().clockQuality).toMatchObject({ quality: 'poor' });
    host.isReachable = true;
    host.pass(10_000);
    expect(link.store.getState().clockQuality).toMatchObject({ quality: 'good' });
    expect(host.heard.flatMap((each) => (each.say === 'clock' ? [each.quality] : []))).toEqual([
      'good',
      'poor',
      'good',
    ]);
  });

  test('a host that says its time with the answers to no ping of this page changes nothing', () => {
    const { host, link } = live();
    host.pass(10_000);
    const before = link.now()!;
    for (let n = 0; n < 50; n++) {
      const t = host.now + host.ahead + 5000;
      host.send({ say: 'pong', n, t1: host.now, t2: t, t3: t, epoch: host.epoch });
      host.pass(20);
    }
    expect(Math.abs(link.now()! - before - 1000)).toBeLessThanOrEqual(5);
  });
});
