/* A hidden page: its timers come once a minute, its messages at once. */

import { describe, expect, test } from 'vitest';
import { createAlarms, type Alarms } from '../../../../renderer/link/time/alarms.ts';
import { FakeHost } from '../fake-host.ts';

const MINUTE = 60_000;

describe('[link] timers once a minute', () => {
  test('the host is not taken for lost where nothing was asked of it', () => {
    const host = new FakeHost();
    const link = host.open();
    host.pass(1000);
    const told: string[] = [];
    link.store.subscribe(({ status }, before) => {
      if (status !== before.status) told.push(status);
    });
    host.timersEvery = MINUTE;
    host.pass(20 * MINUTE);
    expect(told).toEqual([]);
    expect(link.store.getState().status).toBe('live');
    expect(host.connectedAt).toHaveLength(1);
  });

  test('what the host says meanwhile is heard at once', () => {
    const host = new FakeHost();
    const link = host.open();
    host.pass(1000);
    host.openRun();
    host.timersEvery = MINUTE;
    host.pass(10 * MINUTE + 100);
    host.accept(10 * MINUTE, { do: 'start' });
    host.pass(host.delay);
    expect(link.store.getState().run?.state.phase).toBe('going');
  });

  test('a host that answers nothing is lost all the same, within three minutes', () => {
    const host = new FakeHost();
    const link = host.open();
    host.pass(1000);
    host.timersEvery = MINUTE;
    host.pass(5 * MINUTE);
    host.answersPings = false;
    host.isReachable = false;
    host.pass(3 * MINUTE + 1);
    expect(link.store.getState().status).toBe('lost');
  });

  test('a page that was held up itself hears what stands in line before it gives the host up', () => {
    const host = new FakeHost();
    const link = host.open();
    host.pass(10_500);
    // Nothing runs for ten seconds, in the middle of a round trip.
    host.delay = 1900;
    host.pass(2000);
    host.now += 10_000;
    host.wall += 10_000;
    host.delay = 5;
    host.pass(2100);
    expect(link.store.getState().status).toBe('live');
    expect(host.connectedAt).toHaveLength(1);
  });
});

/** A page with its timers, which may be held back, and the worker that knocks. */
class FakePage {
  now = 0;
  isHidden = false;
  timersEvery = 0;
  hasWorkers = true;
  pace: number | null = null;
  opened = 0;
  private knock: (() => void) | null = null;
  private knockAt = Infinity;
  private readonly timers = new Set<{ at: number; call: () => void }>();
  private tell: () => void = () => undefined;

  alarms(): Alarms {
    return createAlarms({
      now: () => this.now,
      after: (delay, call) => {
        const at = this.now + delay;
        const timer = { at: this.timersEvery > 0 ? Math.ceil(at / this.timersEvery) * this.timersEvery : at, call };
        this.timers.add(timer);
        return () => this.timers.delete(timer);
      },
      isHidden: () => this.isHidden,
      onHidden: (call) => (this.tell = call),
      openKnocker: (knock) => {
        if (!this.hasWorkers) return null;
        this.opened++;
        this.knock = knock;
        return {
          pace: (pace) => {
            this.pace = pace;
            this.knockAt = pace === null ? Infinity : this.now + pace;
          },
        };
      },
    });
  }

  hide(isHidden: boolean): void {
    this.isHidden = isHidden;
    this.timersEvery = isHidden ? MINUTE : 0;
    this.tell();
  }

  pass(ms: number): void {
    const until = this.now + ms;
    for (;;) {
      const due = [...this.timers].sort((a, b) => a.at - b.at)[0];
      const at = Math.min(due?.at ?? Infinity, this.knockAt);
      if (at > until) break;
      this.now = at;
      if (due && due.at === at) {
        this.timers.delete(due);
        due.call();
      } else {
        this.knockAt += this.pace ?? Infinity;
        this.knock?.();
      }
    }
    this.now = until;
  }
}

describe('[link] alarms', () => {
  test('keep their time in a hidden page to a quarter of a second, each called once', () => {
    const page = new FakePage();
    const alarms = page.alarms();
    page.hide(true);
    const rung: number[] = [];
    alarms.after(1000, () => rung.push(page.now));
    alarms.after(1100, () => rung.push(page.now));
    const cancel = alarms.after(1200, () => rung.push(NaN));
    page.pass(1100);
    cancel();
    page.pass(5 * MINUTE);
    expect(rung).toEqual([1000, 1250]);
  });

  test('that come again and again do so through hiding and showing', () => {
    const page = new FakePage();
    const alarms = page.alarms();
    const rung: number[] = [];
    const end = alarms.every(2000, () => rung.push(page.now));
    page.pass(6000);
    page.hide(true);
    page.pass(10 * MINUTE);
    page.hide(false);
    page.pass(6000);
    const gaps = rung.slice(1).map((at, index) => at - rung[index]!);
    expect(Math.min(...gaps)).toBeGreaterThanOrEqual(2000);
    expect(Math.max(...gaps)).toBeLessThanOrEqual(2250);
    end();
    page.pass(MINUTE);
    expect(rung.every((at) => at <= 612_000)).toBe(true);
  });

  test('one that throws comes again', () => {
    const page = new FakePage();
    let calls = 0;
    page.alarms().every(1000, () => {
      calls++;
      throw new Error('once');
    });
    expect(() => page.pass(1000)).toThrow('once');
    expect(() => page.pass(1000)).toThrow('once');
    expect(calls).toBe(2);
  });

  test('want no worker in a page that is never hidden, one in a page that is, and it rests while the page is seen', () => {
    const page = new FakePage();
    page.alarms().every(1000, () => undefined);
    page.pass(MINUTE);
    expect(page.opened).toBe(0);
    page.hide(true);
    page.hide(false);
    page.hide(true);
    expect([page.opened, page.pace]).toEqual([1, 250]);
    page.hide(false);
    expect(page.pace).toBeNull();
  });

  test('are as late as the page’s own timers where there are no workers, and lose nothing', () => {
    const page = new FakePage();
    page.hasWorkers = false;
    const alarms = page.alarms();
    page.hide(true);
    const rung: number[] = [];
    alarms.after(1000, () => rung.push(page.now));
    page.pass(2 * MINUTE);
    expect(rung).toEqual([MINUTE]);
  });
});
