/* How many screens are connected, and how often the coach is told of it. */

import { beforeEach, expect, test } from 'vitest';
import { Presence } from '../../../../app/host/deck/telling/presence.ts';
import { FakeClock } from '../../../support/clock/fake-clock.ts';

const NOBODY = { desk: 0, wall: 0, remote: 0 };

let clock: FakeClock;
let presence: Presence;
beforeEach(() => {
  clock = new FakeClock();
  presence = new Presence(clock.timers);
});

test('[presence] counts the screens of each kind, and one that leaves twice only once', () => {
  const leave = presence.join('wall');
  presence.join('wall');
  presence.join('remote');
  expect(presence.now()).toEqual({ desk: 0, wall: 2, remote: 1 });
  leave();
  leave();
  expect(presence.now()).toEqual({ desk: 0, wall: 1, remote: 1 });
});

test('[presence] tells of the first screen at once, and of the others together half a second later', () => {
  expect(presence.latest()).toEqual(NOBODY);
  const told: unknown[] = [];
  presence.onNews(() => told.push(presence.latest()));
  const leave = presence.join('desk');
  presence.join('wall');
  presence.join('wall');
  expect([told, presence.latest()]).toEqual([[{ ...NOBODY, desk: 1 }], { ...NOBODY, desk: 1 }]);
  clock.advance(500);
  expect(told.slice(1)).toEqual([{ desk: 1, wall: 2, remote: 0 }]);
  clock.advance(500);
  leave();
  expect(told.slice(2)).toEqual([{ desk: 0, wall: 2, remote: 0 }]);
  leave();
  clock.advance(5000);
  expect(told).toHaveLength(3);
});

test('[presence] tells everybody who listens, as long as they do', () => {
  let [first, second] = [0, 0];
  const stop = presence.onNews(() => first++);
  presence.onNews(() => second++);
  presence.join('desk');
  clock.advance(500);
  stop();
  presence.join('desk');
  expect([first, second]).toEqual([1, 2]);
});

test('[presence] what it has given away does not change any more', () => {
  const before = presence.now();
  presence.join('desk');
  const told = presence.latest();
  presence.join('desk');
  expect([before, told]).toEqual([NOBODY, { ...NOBODY, desk: 1 }]);
});
