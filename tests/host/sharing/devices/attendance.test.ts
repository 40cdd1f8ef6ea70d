/* Who is connected: how many of each role there may be, and whose connection ends for another. */

import { beforeEach, describe, expect, test } from 'vitest';
import { Attendance } from '../../../../app/host/sharing/devices/attendance.ts';
import { KEYLESS, THIS_MACHINE, type Guest } from '../../../../app/host/sharing/doors/guest.ts';
import type { Role } from '../../../../app/wire/sharing/joining.ts';

let changes: number;
let attendance: Attendance;
let goodbyes: (readonly [string, string])[];
beforeEach(() => {
  changes = 0;
  goodbyes = [];
  attendance = new Attendance(() => changes++);
});

const guest = (role: Role, device: string): Guest => ({ role, name: device, device });

/** One connection; `label` is what it is called here. */
function attendant(who: Guest, label = who.name) {
  return {
    guest: () => who,
    listener: 'network',
    kind: () => null,
    clock: () => null,
    dismiss: (why: string) => void goodbyes.push([label, why]),
  } as const;
}

const come = (role: Role, device: string, label = device) => attendance.come(attendant(guest(role, device), label));

describe('[sharing] room', () => {
  test.each<[Role, number]>([
    ['wall', 256],
    ['remote', 32],
    ['tablet', 8],
    ['coach', 8],
  ])('is there for devices of the role %s: %i at a time', (role, most) => {
    for (let n = 0; n < most; n++) {
      expect(attendance.hasRoom(guest(role, 'new'))).toBe(true);
      come(role, `d${n}`);
    }
    expect(attendance.hasRoom(guest(role, 'new'))).toBe(false);
    expect(goodbyes).toEqual([]);
  });

  test('is there for a device that is connected, and for a page of this machine without a key, however many there are', () => {
    for (let n = 0; n < 8; n++) come('tablet', `d${n}`);
    expect(attendance.hasRoom(guest('tablet', 'd3'))).toBe(true);
    for (let n = 0; n < 8; n++) come('coach', `c${n}`);
    expect(attendance.hasRoom(THIS_MACHINE)).toBe(true);
    for (let n = 0; n < 8; n++) attendance.come(attendant(THIS_MACHINE));
    expect(goodbyes).toEqual([]);
  });

  test('is not taken by other roles, nor by pages without a key', () => {
    for (let n = 0; n < 8; n++) come('coach', `c${n}`);
    for (let n = 0; n < 256; n++) attendance.come(attendant(KEYLESS));
    expect(attendance.hasRoom(guest('tablet', 'new'))).toBe(true);
    expect(attendance.hasRoom(guest('wall', 'new'))).toBe(true);
  });
});

describe('[sharing] a device that connects again', () => {
  const AGAIN = 'This device has connected again.';

  test('keeps four connections; of more the oldest ends', () => {
    for (const label of ['first', 'second', 'third', 'fourth']) come('remote', 'd', label);
    expect(goodbyes).toEqual([]);
    come('remote', 'd', 'fifth');
    expect(goodbyes).toEqual([['first', AGAIN]]);
  });

  test('as a wall keeps sixteen: the walls of one browser are one device', () => {
    for (let n = 1; n <= 16; n++) come('wall', 'd', `wall ${n}`);
    expect(goodbyes).toEqual([]);
    come('wall', 'd', 'one more');
    expect(goodbyes).toEqual([['wall 1', AGAIN]]);
  });

  test('ends its own connection, and no other, where there is no more room for its role', () => {
    for (let n = 0; n < 8; n++) come('tablet', `d${n}`);
    come('tablet', 'd3', 'again');
    expect(goodbyes).toEqual([['d3', AGAIN]]);
  });

  test('makes no room for another device', () => {
    for (let n = 0; n < 8; n++) come('tablet', `d${n}`);
    come('tablet', 'new');
    expect(goodbyes).toEqual([]);
  });

  test('is found by its latest connection', () => {
    come('remote', 'd', 'first');
    const latest = attendant(guest('remote', 'd'), 'second');
    attendance.come(latest);
    come('remote', 'other');
    expect([attendance.latestOf('d'), attendance.latestOf('nobody')]).toEqual([latest, null]);
  });
});

test('[sharing] whoever comes and goes is reported once each, and is no longer there', () => {
  const leave = come('tablet', 'd');
  expect(changes).toBe(1);
  leave();
  leave();
  expect([changes, attendance.latestOf('d')]).toEqual([2, null]);
  attendance.news();
  expect(changes).toBe(3);
});

test('[sharing] those that are meant are dismissed with the reason, also where each goes at once', () => {
  const leaves = new Map<string, () => void>();
  for (const name of ['a', 'b', 'c']) {
    const who = guest(name === 'b' ? 'wall' : 'tablet', name);
    leaves.set(
      name,
      attendance.come({ ...attendant(who), dismiss: (why) => (leaves.get(name)!(), goodbyes.push([name, why])) }),
    );
  }
  attendance.dismiss((each) => each.guest().role === 'tablet', 'Sharing has ended.');
  expect(goodbyes).toEqual([
    ['a', 'Sharing has ended.'],
    ['c', 'Sharing has ended.'],
  ]);
  expect(attendance.latestOf('b')).not.toBeNull();
});

test('[sharing] whether anyone is in from the network leaves the pages of this machine out', () => {
  attendance.come({ ...attendant(guest('coach', 'c')), listener: 'machine' });
  expect(attendance.hasNetwork()).toBe(false);
  const leave = come('remote', 'd');
  expect(attendance.hasNetwork()).toBe(true);
  leave();
  expect(attendance.hasNetwork()).toBe(false);
});
