/* News are let out twice a second at most: the first at once, the rest together. */

import { beforeEach, expect, test } from 'vitest';
import { NEWS_EVERY, NewsPace } from '../../../app/host/screens/news-pace.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';

const BEGIN = 1_000_000;

let clock: FakeClock;
let told: number[];
let pace: NewsPace;

beforeEach(() => {
  clock = new FakeClock({ now: BEGIN });
  told = [];
  pace = new NewsPace(clock.timers, () => told.push(clock.now() - BEGIN));
});

test('[screens] the first news goes out at once, and nothing more without news', () => {
  pace.news();
  expect(told).toEqual([0]);
  clock.advance(10_000);
  expect([told, clock.pending]).toEqual([[0], 0]);
});

test('[screens] news within half a second goes out together at the end of it', () => {
  pace.news();
  clock.advance(100);
  pace.news();
  pace.news();
  clock.advance(NEWS_EVERY - 101);
  expect(told).toEqual([0]);
  clock.advance(1);
  expect(told).toEqual([0, 500]);
  clock.advance(499);
  pace.news();
  clock.advance(10_000);
  expect(told).toEqual([0, 500, 1000]);
});

test('[screens] after half a second of quiet the next news goes out at once', () => {
  pace.news();
  clock.advance(NEWS_EVERY);
  pace.news();
  expect(told).toEqual([0, 500]);
});

test('[screens] once it has ended nothing more goes out, not even what waits, and no timer is left', () => {
  pace.news();
  pace.news();
  pace.end();
  clock.advance(10_000);
  expect([told, clock.pending]).toEqual([[0], 0]);
});
