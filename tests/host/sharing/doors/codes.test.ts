/* Codes: how long each is valid, for how many at a time, and that each is used once. */

import { beforeEach, expect, test } from 'vitest';
import { Codes } from '../../../../app/host/sharing/doors/codes.ts';
import { FakeClock } from '../../../support/clock/fake-clock.ts';
import { fakeChance } from '../../../support/host/sharing/at-the-door.ts';

let clock: FakeClock;
let changes: number;
beforeEach(() => {
  clock = new FakeClock();
  changes = 0;
});

const codes = (most = 1) =>
  new Codes<'remote' | 'tablet'>({ clock, timers: clock.timers, chance: fakeChance() }, most, () => changes++);
const anyProof = () => true;

test('[sharing] a code has twenty letters, its role and the time until which it is valid', () => {
  const all = codes();
  expect(all.latest()).toBeNull();
  const code = all.make('tablet', 120_000);
  expect(code).toEqual({
    role: 'tablet',
    letters: expect.stringMatching(/^[0-9A-Z]{20}$/),
    until: clock.now() + 120_000,
  });
  expect([all.latest(), changes]).toEqual([code, 1]);
});

test('[sharing] a code is used once, by whoever proves that one', () => {
  const all = codes(2);
  const [first, second] = [all.make('remote', 1000), all.make('tablet', 1000)];
  const isSecond = (letters: string) => letters === second.letters;
  expect([all.find(isSecond), all.find(isSecond), all.find(() => false)]).toEqual([second, second, null]);
  expect(all.use(isSecond)).toBe(second);
  expect([all.use(isSecond), all.latest(), changes, clock.pending]).toEqual([null, first, 3, 1]);
});

test('[sharing] a code is forgotten when its time is over, and reported once', () => {
  const all = codes();
  all.make('remote', 1000);
  clock.advance(999);
  expect([all.latest(), changes]).toEqual([expect.anything(), 1]);
  clock.advance(1);
  expect([all.latest(), all.use(anyProof), changes]).toEqual([null, null, 2]);
});

test('[sharing] a code lets nobody in from the moment its time is over, though the timer is late', () => {
  const all = codes(2);
  const [, longer] = [all.make('remote', 1000), all.make('tablet', 1001)];
  clock.stall(1000);
  expect(all.use(anyProof)).toBe(longer);
  expect(all.use(anyProof)).toBeNull();
});

test('[sharing] of more codes than may be valid the oldest is void, with its timer', () => {
  const all = codes(2);
  const [oldest, ...others] = [1, 2, 3].map(() => all.make('remote', 1000));
  expect([changes, clock.pending]).toEqual([3, 2]);
  expect(all.use((letters) => letters === oldest!.letters)).toBeNull();
  expect([all.use(anyProof), all.use(anyProof), all.use(anyProof)]).toEqual([...others, null]);
});

test('[sharing] a code that is printed is valid until it is used, and no timer waits for it', () => {
  const all = codes();
  const code = all.make('remote', Infinity);
  expect(clock.pending).toBe(0);
  clock.advance(365 * 86_400_000);
  expect(all.use(anyProof)).toBe(code);
});

test('[sharing] when sharing ends all codes are void; that is reported once, and not where there is none', () => {
  const all = codes(3);
  all.clear();
  expect(changes).toBe(0);
  all.make('remote', 1000);
  all.make('remote', Infinity);
  all.clear();
  expect([all.latest(), changes, clock.pending]).toEqual([null, 3, 0]);
  all.clear();
  expect(changes).toBe(3);
});
