/*
 * The host's time on a device whose clocks part in sleep, with both clocks handed in.
 */

import { describe, expect, test } from 'vitest';
import { createHostClock, type HostClock } from '../../../../renderer/link/time/host-clock.ts';

/** A device 700 s behind the host. */
class Device {
  time = 1000;
  ahead = 700_000;
  /** Time of day less its own clock. */
  apart = 5_000_000;
  readonly clock: HostClock = createHostClock({ now: () => this.time, wall: () => this.time + this.apart });

  /** A round trip that takes so many ms each way, in an epoch; asked now, or earlier. */
  ping(delay = 5, epoch = 'first', back = delay): void {
    const { n, t1 } = this.clock.ping();
    const t2 = t1 + delay + this.ahead;
    this.time += delay + back;
    this.clock.heard({ n, t1, t2, t3: t2, epoch });
  }

  error(): number | null {
    const now = this.clock.now();
    return now === null ? null : now - this.time - this.ahead;
  }
}

function measured(): Device {
  const device = new Device();
  device.ping();
  device.clock.turnTo('first');
  return device;
}

describe('[link] the host’s time', () => {
  test('is not known before the first answer of the epoch that is shown, and not in doubt either', () => {
    const { clock } = new Device();
    expect([clock.now(), clock.inDoubt(), clock.knows('first')]).toEqual([null, false, false]);
  });

  test('goes by the best of what was measured: a later answer that took its time moves nothing', () => {
    const device = measured();
    expect(device.error()).toBe(0);
    device.ping(5, 'first', 13);
    expect(device.error()).toBe(0);
  });

  test('of another epoch is forgotten when the screen goes over to one', () => {
    const device = measured();
    device.ping(5, 'second');
    expect(device.clock.knows('second')).toBe(true);
    device.clock.turnTo('second');
    expect([device.clock.knows('first'), device.clock.knows('second')]).toEqual([false, true]);
  });
});

describe('[link] clocks that part', () => {
  test('by a quarter of a second are not in doubt, by more they are', () => {
    const device = measured();
    device.apart += 250;
    expect(device.clock.inDoubt()).toBe(false);
    device.apart += 1;
    expect(device.clock.inDoubt()).toBe(true);
  });

  test('backwards are in doubt as well', () => {
    const device = measured();
    device.apart -= 251;
    expect(device.clock.inDoubt()).toBe(true);
  });

  test('by two seconds show the time as before, by more none: the machine has slept', () => {
    const stepped = measured();
    stepped.apart += 2000;
    expect(stepped.error()).toBe(0);
    const slept = measured();
    slept.apart += 2001;
    expect(slept.error()).toBeNull();
  });

  test('in the end are right again with the answer to a ping of the very moment in which that was noticed', () => {
    const device = measured();
    device.apart += 60_000;
    device.ahead += 60_000;
    expect(device.error()).toBeNull();
    device.ping();
    expect([device.error(), device.clock.inDoubt()]).toEqual([0, false]);
  });

  test('are in doubt until a later question is answered', () => {
    const device = measured();
    const { n, t1 } = device.clock.ping();
    device.time += 5;
    device.apart += 60_000;
    device.clock.heard({ n, t1, t2: t1 + device.ahead, t3: t1 + device.ahead, epoch: 'first' });
    expect([device.error(), device.clock.inDoubt()]).toEqual([null, true]);
  });
});

describe('[link] an answer', () => {
  /** Says that the host's clock is five seconds further. */
  function forge(device: Device, { n, t1 }: { readonly n: number; readonly t1: number }): void {
    const t2 = t1 + device.ahead + 5000;
    device.clock.heard({ n, t1, t2, t3: t2, epoch: 'first' });
  }

  test('to a ping that was never sent, or not then, is dropped', () => {
    const device = measured();
    const { n, t1 } = device.clock.ping();
    for (let forged = 0; forged < 10; forged++) {
      device.time += 5;
      forge(device, { n: n + 1 + forged, t1: device.time });
      forge(device, { n, t1: t1 + 1 });
    }
    expect([device.error(), device.clock.inDoubt()]).toEqual([0, false]);
  });

  test('counts once', () => {
    const device = measured();
    const ping = device.clock.ping();
    device.time += 5;
    for (let again = 0; again < 10; again++) {
      forge(device, ping);
      device.time += 5;
    }
    expect(device.error()).toBe(0);
  });

  test('comes to one of the last 64 pings; those before are given up', () => {
    const device = new Device();
    const pings = Array.from({ length: 65 }, () => device.clock.ping());
    forge(device, pings[0]!);
    expect(device.clock.knows('first')).toBe(false);
    forge(device, pings[1]!);
    expect(device.clock.knows('first')).toBe(true);
  });

  test('that contradicts the time is a reason to ask again at once, until three agree', () => {
    const device = measured();
    device.ahead += 40;
    const doubts = Array.from({ length: 3 }, () => {
      device.ping();
      return [device.clock.inDoubt(), device.error()];
    });
    expect(doubts).toEqual([
      [true, -40],
      [true, -40],
      [false, 0],
    ]);
  });
});

describe('[link] how good the time is', () => {
  test('is not known before the first answer, nor after a sleep', () => {
    const device = new Device();
    expect(device.clock.quality()).toBeNull();
    device.ping();
    device.clock.turnTo('first');
    expect(device.clock.quality()).toEqual({ quality: 'good', bound: 6 });
    device.apart += 60_000;
    expect(device.clock.quality()).toBeNull();
  });

  test('gets less while nobody answers: fair to 100 ms, and poor', () => {
    const device = measured();
    const after = (ms: number) => {
      device.time += ms;
      return device.clock.quality()?.quality;
    };
    // Nineteen ms of drift take 380 s.
    expect([after(379_000), after(2000), after(1_499_000 - 2000), after(4000)]).toEqual([
      'good',
      'fair',
      'fair',
      'poor',
    ]);
  });

  test('is better again when it is better by a fifth', () => {
    const device = new Device();
    device.ping(110);
    device.clock.turnTo('first');
    expect(device.clock.quality()?.quality).toBe('poor');
    device.ping(90);
    expect(device.clock.quality()?.quality).toBe('poor');
    device.ping(70);
    expect(device.clock.quality()?.quality).toBe('fair');
  });

  test('is judged afresh after a sleep, and not by how it was before', () => {
    const device = new Device();
    device.ping(110);
    device.clock.turnTo('first');
    expect(device.clock.quality()?.quality).toBe('poor');
    device.apart += 60_000;
    expect(device.clock.quality()).toBeNull();
    device.ping(90);
    expect(device.clock.quality()?.quality).toBe('fair');
  });
});
