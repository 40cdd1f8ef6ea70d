/* What screens without a session go by. */

import { expect, test } from 'vitest';
import { PoolClock } from '../../../app/host/deck/pool-clock.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';

const HALF_PAST_SEVEN = 19.5 * 3_600_000;

/** The time of day that it shows now. */
function shownNow(pool: PoolClock, clock: FakeClock): number {
  return (pool.atZero() + clock.now()) % 86_400_000;
}

test("[pool's clock] it is the time of day until a coach has matched it, and again where that is taken back", () => {
  const clock = new FakeClock({ timeOfDay: HALF_PAST_SEVEN + 12_000 });
  const pool = new PoolClock(clock);
  expect(shownNow(pool, clock)).toBe(HALF_PAST_SEVEN + 12_000);
  pool.match(20_000, HALF_PAST_SEVEN + 12_000);
  expect(shownNow(pool, clock)).toBe(HALF_PAST_SEVEN + 20_000);
  pool.match(null, HALF_PAST_SEVEN + 12_000);
  expect(shownNow(pool, clock)).toBe(HALF_PAST_SEVEN + 12_000);
});

test("[pool's clock] a match changes seconds, never the time of day by more than half a minute, and it lasts all day", () => {
  const clock = new FakeClock({ timeOfDay: HALF_PAST_SEVEN + 2_000 });
  const pool = new PoolClock(clock);
  pool.match(55_000, HALF_PAST_SEVEN + 2_000);
  expect(shownNow(pool, clock)).toBe(HALF_PAST_SEVEN - 5_000);
  clock.advance(3 * 3_600_000);
  expect(shownNow(pool, clock)).toBe(HALF_PAST_SEVEN + 3 * 3_600_000 - 5_000);
});

test("[pool's clock] half a minute is the most that it goes ahead, and from there on it goes back", () => {
  const clock = new FakeClock({ timeOfDay: HALF_PAST_SEVEN });
  const pool = new PoolClock(clock);
  pool.match(30_000, HALF_PAST_SEVEN);
  expect(shownNow(pool, clock)).toBe(HALF_PAST_SEVEN + 30_000);
  pool.match(30_001, HALF_PAST_SEVEN);
  expect(shownNow(pool, clock)).toBe(HALF_PAST_SEVEN - 29_999);
});
