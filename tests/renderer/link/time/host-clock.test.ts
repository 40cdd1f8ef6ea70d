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
    const t1 = this.time;
    const t2 = t1 + delay + this.ahead;
    this.time += delay + back;
    this.clock.heard({ t1, t2, t3: t2, epoch });
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
    const t1 = device.time;
    device.time += 5;
    device.apart += 60_000;
    device.clock.heard({ t1, t2: t1 + device.ahead, t3: t1 + device.ahead, epoch: 'first' });
    expect([device.error(), device.clock.inDoubt()]).toEqual([null, true]);
  });
});
