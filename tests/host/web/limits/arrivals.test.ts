/* When a connection may come in, without a network. Times and counts are those of the limits: 200, 40 a second, 32 wait. */

import { beforeEach, describe, expect, test } from 'vitest';
import { Arrivals } from '../../../../app/host/web/limits/arrivals.ts';
import { FakeClock } from '../../../support/clock/fake-clock.ts';

let clock: FakeClock;
let arrivals: Arrivals;
let cameIn: string[];
let reset: string[];

beforeEach(() => {
  clock = new FakeClock();
  arrivals = new Arrivals(clock, clock.timers);
  cameIn = [];
  reset = [];
});

function arrive(from: string, call = from): void {
  arrivals.arrive(
    from,
    () => cameIn.push(call),
    () => reset.push(call),
  );
}

function arriveOften(from: string, times: number): void {
  for (let n = 0; n < times; n++) arrive(from);
}

/** How many of so many more would come in now. */
function roomOf(from: string, tried = 210): number {
  const before = cameIn.length;
  arriveOften(from, tried);
  return cameIn.length - before;
}

describe('[arrivals] of one address', () => {
  test('200 come in at once, and then one every 25 ms, in order', () => {
    arriveOften('10.0.0.2', 200);
    expect(cameIn).toHaveLength(200);
    arrive('10.0.0.2', 'first');
    arrive('10.0.0.2', 'second');
    clock.advance(24);
    expect(cameIn).toHaveLength(200);
    clock.advance(1);
    expect(cameIn.slice(200)).toEqual(['first']);
    clock.advance(25);
    expect(cameIn.slice(201)).toEqual(['second']);
    expect([reset, clock.pending]).toEqual([[], 0]);
  });

  test('nobody overtakes those that wait, and another address does not wait', () => {
    arriveOften('10.0.0.2', 200);
    arrive('10.0.0.2', 'waits');
    // Its timer is late: there would be a place for the next.
    clock.stall(40);
    arrive('10.0.0.2', 'comes later');
    arrive('10.0.0.3', 'another');
    expect(cameIn.slice(200)).toEqual(['another']);
    clock.advance(50);
    expect(cameIn.slice(201)).toEqual(['waits', 'comes later']);
  });

  test('half of them are there again after 2.5 s, all after 5 s, and never more', () => {
    arriveOften('10.0.0.2', 200);
    clock.advance(2500);
    expect(roomOf('10.0.0.2', 100)).toBe(100);
    clock.advance(5000);
    expect(roomOf('10.0.0.2')).toBe(200);
  });

  test('32 wait; with one more the one that waited longest is reset', () => {
    arriveOften('10.0.0.2', 200);
    for (let n = 1; n <= 33; n++) arrive('10.0.0.2', `${n}`);
    expect(reset).toEqual(['1']);
    clock.advance(25);
    expect(cameIn.slice(200)).toEqual(['2']);
  });
});

test('[arrivals] of all addresses 256 wait; with one more the oldest of the address that has most goes', () => {
  for (let n = 0; n < 8; n++) arriveOften(`10.0.0.${n}`, 200 + 31);
  arriveOften('10.0.1.1', 200);
  for (let n = 0; n < 8; n++) arrive('10.0.1.1', 'few');
  expect(reset).toEqual([]);
  arrive('10.0.1.1', 'few');
  expect(reset).toEqual(['10.0.0.0']);
});

describe('[arrivals] who breaks a limit', () => {
  test('costs their address 20 connections, and no other', () => {
    arriveOften('10.0.0.2', 100);
    arrivals.offended('10.0.0.2');
    arrivals.offended('10.0.0.9');
    expect([roomOf('10.0.0.2'), roomOf('10.0.0.3')]).toEqual([80, 200]);
  });

  test('makes it owe some, 200 at most', () => {
    arriveOften('10.0.0.2', 200);
    for (let n = 0; n < 30; n++) arrivals.offended('10.0.0.2');
    arrive('10.0.0.2', 'waits');
    clock.advance(5024);
    expect(cameIn).toHaveLength(200);
    clock.advance(1);
    expect(cameIn).toHaveLength(201);
  });
});

describe('[arrivals] addresses are forgotten', () => {
  const others = (count: number): void => {
    for (let n = 0; n < count; n++) arrive(`10.1.${n >> 8}.${n & 255}`);
  };

  test('of more than 1024 the one that stayed away longest', () => {
    arriveOften('10.0.0.2', 200);
    others(1023);
    arrive('10.0.0.2', 'waits');
    expect(cameIn.at(-1)).not.toBe('waits');
    others(1024);
    arrive('10.0.0.2', 'is new');
    expect(cameIn.at(-1)).toBe('is new');
  });

  test('after 10 s, when even one that owed has its whole burst again', () => {
    const known = Reflect.get(arrivals, 'addresses') as Map<string, unknown>;
    others(3);
    clock.advance(9999);
    arrive('10.0.0.2');
    expect(known.size).toBe(4);
    clock.advance(1);
    arrive('10.0.0.2');
    expect([...known.keys()]).toEqual(['10.0.0.2']);
  });
});

test('[arrivals] those that wait are reset when the listener closes, and no timer is left', () => {
  arriveOften('10.0.0.2', 200);
  arrive('10.0.0.2', 'one');
  arrive('10.0.0.2', 'two');
  arrivals.close();
  expect([reset, cameIn.length, clock.pending]).toEqual([['one', 'two'], 200, 0]);
  clock.advance(5000);
  expect(cameIn).toHaveLength(200);
});
