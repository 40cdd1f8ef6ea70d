/*
 * Clock sync against the sums of RFC 5905 and worked examples of its clock filter, and over simulated
 * lines: jitter, an uneven path, clocks of unlike rates, held-up messages and a host that has slept.
 */

import { describe, expect, test } from 'vitest';
import {
  addSample,
  emptySync,
  hostTimeAt,
  leastDelay,
  measure,
  type Measured,
  type Sync,
} from '../../../app/core/sync/offset.ts';

describe('[RFC 5905, 8] offset and delay of a round trip', () => {
  // Worked by hand from theta = ((T2 - T1) + (T3 - T4)) / 2 and delta = (T4 - T1) - (T3 - T2).
  // The first is the example of erratum 5020: equal clocks, 50 ms each way, offset 0.
  test.each([
    [0, 50, 50, 100, 0, 100],
    [1000, 1075, 1080, 1055, 50, 50],
    [10_000, 9840, 9841, 10_021, -170, 20],
  ])('%i %i %i %i', (t1, t2, t3, t4, offset, delay) => {
    expect(measure({ t1, t2, t3, t4 })).toEqual({ offset, delay, at: t4 });
  });

  test('a delay below zero, from clocks of unlike rates over 64 s, counts as none', () => {
    expect(measure({ t1: 0, t2: 0, t3: 64_006.4, t4: 64_000 }).delay).toBe(0);
  });

  test('an uneven path of 30 ms out and 10 ms back is wrong by half the difference', () => {
    expect(measure({ t1: 0, t2: 530, t3: 530, t4: 40 }).offset).toBe(500 + 10);
  });
});

describe('[RFC 5905, 10] the least delay of a window is the one to go by', () => {
  const eight = [
    [12.0, 40],
    [8.5, 22],
    [15.0, 61],
    [7.9, 18],
    [9.4, 25],
    [30.2, 140],
    [8.1, 19],
    [10.7, 33],
  ].map(([offset, delay], at): Measured => ({ offset: offset!, delay: delay!, at }));

  test('of eight: not the mean, not the last', () => {
    expect(leastDelay(eight)).toMatchObject({ offset: 7.9, delay: 18 });
  });

  test('a ninth that was quicker still', () => {
    expect(leastDelay([...eight.slice(1), { offset: 20, delay: 17, at: 8 }])).toMatchObject({ offset: 20, delay: 17 });
  });

  test('of equals the latest; of none none', () => {
    expect(leastDelay([...eight, { offset: 8, delay: 18, at: 9 }])).toMatchObject({ at: 9 });
    expect(leastDelay([])).toBeUndefined();
  });
});

describe('[sync] which samples count', () => {
  test('before the first nothing is measured and there is no host time', () => {
    expect(emptySync().window).toEqual([]);
    expect(hostTimeAt(emptySync(), 5)).toBeNull();
  });

  test('the first is believed at once', () => {
    expect(hostTimeAt(trip(emptySync(), 100, { offset: 5000 }), 100)).toBe(5100);
  });

  test.each([
    ['an answer before its question', { t1: 200, t2: 5200, t3: 5200, t4: 199 }],
    ['an answer sent before the question came', { t1: 200, t2: 5202, t3: 5201, t4: 205 }],
    ['no number', { t1: 200, t2: Number.NaN, t3: 5201, t4: 205 }],
    ['a question that was asked at no time', { t1: -Infinity, t2: 5201, t3: 5201, t4: 205 }],
    ['a question that came at no time', { t1: 200, t2: -Infinity, t3: 5201, t4: 205 }],
    ['an answer that was sent at no time', { t1: 200, t2: 5201, t3: Infinity, t4: 205 }],
    ['an answer that came at no time', { t1: 200, t2: 5201, t3: 5201, t4: Infinity }],
    ['one no later than the last', { t1: 90, t2: 7090, t3: 7090, t4: 100 }],
  ])('dropped: %s', (_, stamps) => {
    const sync = trip(emptySync(), 100, { offset: 5000 });
    expect(addSample(sync, { ...stamps, epoch: 'a' })).toBe(sync);
  });

  test('one held up for more than twice the best and 5 ms never counts, even when the best is too old', () => {
    let sync = trip(emptySync(), 0, { offset: 100, out: 2, back: 2 });
    sync = trip(sync, 1000, { offset: 100, out: 2, back: 12 });
    expect(sync.window).toHaveLength(1);
    sync = trip(sync, 59_000, { offset: 100, out: 2, back: 11 });
    expect(sync.window).toHaveLength(2);
    // A minute after the first only the second is left, and is what others are held against.
    sync = trip(sync, 60_001 + 4, { offset: 100, out: 10, back: 10 });
    expect(sync.window.map(({ delay }) => delay)).toEqual([13, 20]);
  });

  test('an answer in the same millisecond counts', () => {
    expect(addSample(emptySync(), { t1: 100, t2: 5100, t3: 5100, t4: 100, epoch: 'a' }).window).toHaveLength(1);
  });

  test('one counts for a minute, the last millisecond included', () => {
    const sync = trip(emptySync(), 0, { offset: 100 });
    expect(trip(sync, 60_000, { offset: 100 }).window).toHaveLength(2);
    expect(trip(sync, 60_001, { offset: 100 }).window).toHaveLength(1);
  });

  test('sixteen are kept', () => {
    let sync = emptySync();
    for (let count = 0; count < 40; count++) sync = trip(sync, count * 1000, { offset: 1 });
    expect(sync.window).toHaveLength(16);
  });

  test('a line that has become slow for good is believed again after a minute', () => {
    let sync = emptySync();
    for (let at = 0; at < 10_000; at += 1000) sync = trip(sync, at, { offset: 0, out: 1, back: 1 });
    for (let at = 10_000; at < 80_000; at += 1000) sync = trip(sync, at, { offset: 40, out: 30, back: 30 });
    expect(hostTimeAt(sync, 90_000)! - 90_000).toBeCloseTo(40, 6);
  });
});

describe('[sync] how a better offset is taken over', () => {
  function settled(offset: number): Sync {
    let sync = emptySync();
    for (let at = 0; at < 10_000; at += 1000) sync = trip(sync, at, { offset, out: 5, back: 5 });
    return sync;
  }

  test('the first burst is followed at once', () => {
    let sync = trip(emptySync(), 0, { offset: 100, out: 40, back: 4 });
    expect(hostTimeAt(sync, 0)).toBe(118);
    sync = trip(sync, 60, { offset: 100, out: 2, back: 2 });
    expect(hostTimeAt(sync, 60)).toBe(160);
  });

  test('the burst has eight samples: the ninth moves the clock by and by', () => {
    const shownAfter = (samples: number) => {
      let sync = emptySync();
      for (let at = 0; at < samples - 1; at++) sync = trip(sync, at, { offset: 100, out: 5, back: 5 });
      return hostTimeAt(trip(sync, 100, { offset: 120, out: 1, back: 1 }), 100);
    };
    expect(shownAfter(8)).toBe(220);
    expect(shownAfter(9)).toBe(200);
  });

  test('a small error goes at 5 ms a second, and stops when it is gone', () => {
    const sync = trip(settled(100), 10_000, { offset: 120, out: 1, back: 1 });
    const shown = (after: number) => hostTimeAt(sync, 10_000 + after)! - 10_000 - after;
    expect(shown(0)).toBeCloseTo(100, 9);
    expect(shown(1000)).toBeCloseTo(105, 9);
    expect(shown(4000)).toBeCloseTo(120, 9);
    expect(shown(50_000)).toBeCloseTo(120, 9);
  });

  test('the other way round the clock goes slower and never back', () => {
    const sync = trip(settled(100), 10_000, { offset: 50, out: 1, back: 1 });
    for (let at = 10_000; at < 25_000; at += 7)
      expect(hostTimeAt(sync, at + 7)!).toBeGreaterThan(hostTimeAt(sync, at)!);
    expect(hostTimeAt(sync, 25_000)! - 25_000).toBeCloseTo(50, 9);
  });

  test('an error of 60 ms or more is put right at once', () => {
    const below = trip(settled(100), 10_000, { offset: 159.9, out: 1, back: 1 });
    expect(hostTimeAt(below, 10_000)! - 10_000).toBeCloseTo(100, 9);
    const from = trip(settled(100), 10_000, { offset: 160, out: 1, back: 1 });
    expect(hostTimeAt(from, 10_000)! - 10_000).toBeCloseTo(160, 9);
  });

  test('a new epoch begins anew: nothing measured before counts', () => {
    const sync = trip(settled(100), 10_000, { offset: 9000, out: 40, back: 40, epoch: 'b' });
    expect(sync.window).toHaveLength(1);
    expect(hostTimeAt(sync, 10_000)! - 10_000).toBe(9000);
  });
});

describe('[sync] over simulated lines', () => {
  const seeds = [1, 2, 3, 4, 5, 6, 7, 8];

  test.each(seeds)('busy Wi-Fi for ten minutes: never more than 10 ms wrong after the burst (seed %i)', (seed) => {
    const random = lcg(seed);
    // Mostly quick, with a long tail, out and back on their own.
    const way = () => 1 + random() * 3 + (random() < 0.2 ? random() ** 2 * 150 : 0);
    const worst = worstError({ random, way, rate: 40e-6 });
    expect(worst).toBeLessThan(10);
  });

  test.each(seeds)('a path that is always 16 ms slower out is wrong by 8 ms and what jitter adds (seed %i)', (seed) => {
    const random = lcg(seed);
    const worst = worstError({ random, way: () => 1 + random() * 2, extraOut: 16, rate: 0 });
    expect(worst).toBeGreaterThan(7);
    expect(worst).toBeLessThan(9.5);
  });
});

/** The greatest error of host time over ten minutes, from the end of the burst on, looked at before every ping. */
function worstError(line: { random: () => number; way: () => number; extraOut?: number; rate: number }): number {
  const { way, extraOut = 0, rate } = line;
  const hostOf = (local: number) => 50_000 + local * (1 + rate);
  let sync = emptySync();
  let worst = 0;
  let at = 0;
  for (let ping = 0; at < 600_000; ping++) {
    const t1 = at;
    const came = t1 + way() + extraOut;
    const t4 = came + 0.2 + way();
    sync = addSample(sync, { t1, t2: hostOf(came), t3: hostOf(came + 0.2), t4, epoch: 'a' });
    at = Math.max(at + (ping < 8 ? 60 : 2000), t4);
    if (ping >= 8) worst = Math.max(worst, Math.abs(hostTimeAt(sync, at)! - hostOf(at)));
  }
  return worst;
}

/** A round trip that ends at `t4`; `offset` is what the host's clock really is ahead. */
function trip(
  sync: Sync,
  t4: number,
  { offset, out = 5, back = 5, epoch = 'a' }: { offset: number; out?: number; back?: number; epoch?: string },
): Sync {
  const t1 = t4 - out - back;
  const came = t1 + out + offset;
  return addSample(sync, { t1, t2: came, t3: came, t4, epoch });
}

/** A linear congruential generator with the constants of Numerical Recipes; 0 up to 1. */
function lcg(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}
