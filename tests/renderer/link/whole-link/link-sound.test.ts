/* What the link carries of the sound, and the run's time to a fraction of a millisecond. */

import { describe, expect, test } from 'vitest';
import { FakeHost } from '../fake-host.ts';

const REPORT = { id: 'page', n: 1, status: 'running', asked: false, more: null } as const;

describe('[link] sound', () => {
  test('a report goes to the host while there is a connection, and nowhere without one', () => {
    const host = new FakeHost();
    const link = host.open();
    link.sound(REPORT);
    host.pass(1000);
    expect(host.count('sound')).toBe(0);
    link.sound(REPORT);
    host.pass(1000);
    expect(host.heard.filter(({ say }) => say === 'sound')).toEqual([{ say: 'sound', ...REPORT }]);
    host.cut();
    link.sound(REPORT);
    host.pass(10_000);
    expect(host.count('sound')).toBe(1);
  });

  test('which screens sound is in the store; of a host that does not say, none', () => {
    const host = new FakeHost();
    const link = host.open();
    host.pass(1000);
    expect(link.store.getState().sound).toEqual({ more: null, screens: [] });
    const told = { id: 'page', n: 1, status: 'running', screen: 'wall', on: true } as const;
    host.send({ say: 'sound', more: true, screens: [told] });
    host.pass(100);
    expect(link.store.getState().sound).toEqual({ more: true, screens: [told] });
  });

  test('how many screens there are is in the store', () => {
    const host = new FakeHost();
    const link = host.open();
    host.pass(1000);
    host.send({ say: 'presence', screens: { desk: 1, wall: 3, remote: 2 } });
    host.pass(100);
    expect(link.store.getState().screens).toEqual({ desk: 1, wall: 3, remote: 2 });
  });
});

describe('[link] exact time', () => {
  test('is the time that is shown, with what that leaves off', () => {
    const host = new FakeHost();
    const link = host.open();
    expect(link.exactNow()).toBeNull();
    host.pass(1000);
    expect(link.exactNow()).toBeNull();
    host.openRun();
    host.pass(2000.375);
    expect(link.exactNow()! - link.now()!).toBeCloseTo(link.exactNow()! % 1, 9);
    const before = link.exactNow()!;
    host.pass(0.5);
    expect(link.exactNow()! - before).toBeCloseTo(0.5, 6);
  });
});
