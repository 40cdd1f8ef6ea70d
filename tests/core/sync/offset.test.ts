/*
 * Clock sync against the sums of RFC 5905 and worked examples of its clock filter, and over simulated
 * lines: jitter, an uneven path, clocks of unlike rates, held-up messages and a host that has slept.
 */

import { describe, expect, test } from 'vitest';
import {
  addSample,
  boundOf,
  emptySync,
  errorBoundAt,
  hostTimeAt,
  measure,
  type Sync,
} from '../../../app/core/sync/offset.ts';
import { looksOver, quantile, wifi, type Line } from '../../support/clock/simulated-line.ts';

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

describe('[RFC 5905, 10] of equally old samples the one of the least delay counts', () => {
  // The clock filter's vector: offset and delay of eight round trips, at one time of the screen's clock.
  const EIGHT = [
    [12.0, 40],
    [8.5, 22],
    [15.0, 61],
    [7.9, 18],
    [9.4, 25],
    [30.2, 140],
    [8.1, 19],
    [10.7, 33],
  ] as const;

  /** Taken within ten microseconds, in which no clock drifts. */
  const after = (vector: readonly (readonly [number, number])[]) =>
    vector.reduce<Sync>(
      (sync, [offset, delay], place) => filtered(sync, offset, delay, 1000 + place / 1000),
      emptySync(),
    );

  test('of eight: not the mean (12.7), not the last (10.7)', () => {
    const sync = after(EIGHT);
    expect(sync.samples[0]).toMatchObject({ offset: expect.closeTo(7.9, 6) as number });
    expect(hostTimeAt(sync, 1000)! - 1000).toBeCloseTo(7.9, 6);
    expect(boundOf(sync.samples[0]!, sync.samples[0]!.at)).toBeCloseTo(9, 6);
  });

  test('a ninth that was quicker still', () => {
    expect(after([...EIGHT, [20, 17]]).samples[0]).toMatchObject({ offset: expect.closeTo(20, 6) as number });
  });

  test('of equals the latest, and the earlier is forgotten', () => {
    const sync = after([
      [4, 20],
      [5, 20],
      [6, 20],
    ]);
    expect(sync.samples.map(({ offset }) => Math.round(offset))).toEqual([6]);
  });

  test('of one this one, with half its delay as the bound and a millisecond that clocks round off', () => {
    const sync = after([[7, 30]]);
    expect(hostTimeAt(sync, 1000)! - 1000).toBeCloseTo(7, 6);
    expect(errorBoundAt(sync, 1000)).toBeCloseTo(15 + 1, 3);
  });
});

describe('[sync] the least bound', () => {
  test('of a sample grows by 50 millionths of its age', () => {
    expect(boundOf({ offset: 3, delay: 8, at: 1000 }, 1000)).toBe(4);
    expect(boundOf({ offset: 3, delay: 8, at: 1000 }, 101_000)).toBeCloseTo(9, 9);
  });

  test('a slower sample counts once the quick one before is older than the difference is worth', () => {
    const quick = trip(emptySync(), 0, { offset: 100, out: 1, back: 1 });
    // Nine ms more on the bound are three minutes of drift.
    const counting = (at: number) => trip(quick, at, { offset: 100, out: 10, back: 10 }).samples[0]!.at;
    expect(counting(179_000)).toBe(0);
    expect(counting(181_000)).toBe(181_000);
  });

  test('counts for a quarter of an hour, the last millisecond included', () => {
    const OLD = 15 * 60_000;
    const quick = trip(emptySync(), 0, { offset: 100, out: 1, back: 1 });
    const counting = (at: number) => trip(quick, at, { offset: 100, out: 200, back: 200 }).samples[0]!.at;
    expect(counting(OLD)).toBe(0);
    expect(counting(OLD + 1)).toBe(OLD + 1);
  });

  test('is followed by the next best when it is too old', () => {
    let sync = trip(emptySync(), 0, { offset: 100, out: 1, back: 1 });
    sync = trip(sync, 60_000, { offset: 100, out: 100, back: 100 });
    sync = trip(sync, 120_000, { offset: 100, out: 150, back: 150 });
    expect(sync.samples.map(({ at }) => at)).toEqual([0, 60_000, 120_000]);
    sync = trip(sync, 15 * 60_000 + 1, { offset: 100, out: 190, back: 190 });
    expect(sync.samples[0]!.at).toBe(60_000);
  });

  test('however long pings go on, only samples that may yet count are kept', () => {
    let sync = emptySync();
    for (let at = 0; at < 3_600_000; at += 2000) sync = trip(sync, at, { offset: 1, out: 5 + (at % 7), back: 5 });
    expect(sync.samples.length).toBeLessThan(8);
  });

  test('of the clock that is shown has what it is still to be moved by', () => {
    const sync = trip(settled(100), 10_000, { offset: 103, out: 1, back: 1 });
    expect(errorBoundAt(sync, 10_000)).toBeCloseTo(3 + 1 + 1, 3);
    expect(errorBoundAt(sync, 12_000)).toBeCloseTo(1 + 1 + 0.1, 3);
    expect(errorBoundAt(emptySync(), 0)).toBeNull();
  });

  test('goes on growing while nobody answers', () => {
    const sync = settled(100);
    expect(errorBoundAt(sync, 9000 + 40 * 60_000)).toBeCloseTo(5 + 1 + 120, 3);
  });
});

describe('[sync] samples that contradict each other', () => {
  const odd = { offset: 140, out: 5, back: 5 };

  test('one or two change nothing, three that agree are followed at once', () => {
    let sync = settled(100);
    for (const at of [10_000, 10_100]) {
      sync = trip(sync, at, odd);
      expect(hostTimeAt(sync, at)! - at).toBe(100);
    }
    sync = trip(sync, 10_200, odd);
    expect(hostTimeAt(sync, 10_200)! - 10_200).toBe(140);
    expect(sync.dissent).toEqual([]);
    expect(errorBoundAt(sync, 10_200)).toBeCloseTo(6, 1);
  });

  test('three that do not agree with each other are followed by nobody', () => {
    let sync = settled(100);
    for (const [place, offset] of [140, 180, 220, 260, 300].entries())
      sync = trip(sync, 10_000 + 100 * place, { offset, out: 5, back: 5 });
    expect(hostTimeAt(sync, 11_000)! - 11_000).toBe(100);
  });

  test('an outlier, then one that agrees with the clock: the outlier is forgotten', () => {
    let sync = settled(100);
    for (let at = 10_000; at < 12_000; at += 400) {
      sync = trip(sync, at, odd);
      sync = trip(sync, at + 100, odd);
      sync = trip(sync, at + 200, { offset: 100, out: 5, back: 5 });
      expect(sync.dissent).toEqual([]);
    }
    expect(hostTimeAt(sync, 12_000)! - 12_000).toBe(100);
  });

  test('one so slow that it contradicts neither is no reason to forget', () => {
    let sync = trip(trip(settled(100), 10_000, odd), 10_100, odd);
    sync = trip(sync, 10_300, { offset: 120, out: 80, back: 80 });
    expect(sync.dissent).toHaveLength(2);
    expect(hostTimeAt(trip(sync, 10_400, odd), 10_400)! - 10_400).toBe(140);
  });

  test('count for a quarter of an hour too: after that three others must agree', () => {
    const OLD = 15 * 60_000;
    const jumpedAfter = (old: number) => {
      const far = { offset: 400, out: 5, back: 5 };
      let sync = trip(trip(settled(100), 10_000, far), 10_001, far);
      // So slow that they contradict neither.
      for (let at = 60_000; at < OLD; at += 60_000) sync = trip(sync, at, { offset: 250, out: 150, back: 150 });
      const last = 10_001 + old;
      const before = hostTimeAt(sync, last)!;
      return hostTimeAt(trip(sync, last, { offset: 440, out: 5, back: 5 }), last)! - before > 100;
    };
    expect([jumpedAfter(OLD - 1), jumpedAfter(OLD + 1)]).toEqual([true, false]);
  });

  test('bounds that touch, with the millisecond that either clock rounds off, are no contradiction', () => {
    const dissentAt = (offset: number) => trip(settled(100), 9001, { offset, out: 5, back: 5 }).dissent.length;
    expect([dissentAt(111.9), dissentAt(112.2)]).toEqual([0, 1]);
  });

  test('a clock rounded to whole milliseconds, on a line that takes none, is followed as it drifts', () => {
    let sync = emptySync();
    for (let at = 0; at < 20 * 60_000; at += 2000) {
      const host = 5000 + at * (1 + 40e-6);
      sync = addSample(sync, { t1: at, t2: host, t3: host, t4: at + (at % 3 === 0 ? 1 : 0.5), epoch: 'a' });
      expect(Math.abs(hostTimeAt(sync, at + 1)! - (host + 1))).toBeLessThan(errorBoundAt(sync, at + 1)!);
    }
  });
});

describe('[sync] which samples count', () => {
  test('before the first nothing is measured and there is no host time', () => {
    expect(emptySync().samples).toEqual([]);
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
    ['an answer that took the host longer than the whole trip', { t1: 200, t2: 5200, t3: 5210, t4: 207 }],
    ['one no later than the last', { t1: 90, t2: 7090, t3: 7090, t4: 100 }],
  ])('dropped: %s', (_, stamps) => {
    const sync = trip(emptySync(), 100, { offset: 5000 });
    expect(addSample(sync, { ...stamps, epoch: 'a' })).toBe(sync);
  });

  // 2 ms for what two clocks are rounded off by, and a ten-thousandth of the trip for what they drift apart.
  test.each([
    [0, 2, true],
    [0, 2.01, false],
    [20_000, 20_003.99, true],
    [20_000, 20_004.01, false],
  ])('of a trip of %f ms the host may have taken %f: %s', (trip, host, counts) => {
    const t1 = 1_000_000;
    const sample = { t1, t2: 5, t3: 5 + host, t4: t1 + trip, epoch: 'a' };
    expect(addSample(emptySync(), sample).samples).toHaveLength(counts ? 1 : 0);
  });

  test.each([
    [5003, 0],
    [5003.01, 1],
  ])('after 20 s two clocks may differ by 3 ms: an offset of %f instead of 5000 contradicts in %i', (t2, dissent) => {
    const first = addSample(emptySync(), { t1: 0, t2: 5000, t3: 5000, t4: 0, epoch: 'a' });
    const second = { t1: 20_000, t2: 20_000 + t2, t3: 20_000 + t2, t4: 20_000, epoch: 'a' };
    expect(addSample(first, second).dissent).toHaveLength(dissent);
  });

  test('of two that are equally good the later counts, and it alone', () => {
    const first = addSample(emptySync(), { t1: 0, t2: 5000, t3: 5000, t4: 0, epoch: 'a' });
    const both = addSample(first, { t1: 19_998, t2: 24_999, t3: 24_999, t4: 20_000, epoch: 'a' });
    expect(both.samples.map(({ at }) => at)).toEqual([20_000]);
  });

  test('an answer in the same millisecond counts', () => {
    expect(addSample(emptySync(), { t1: 100, t2: 5100, t3: 5100, t4: 100, epoch: 'a' }).samples).toHaveLength(1);
  });
});

describe('[sync] how a better offset is taken over', () => {
  test('the first burst is followed at once', () => {
    let sync = trip(emptySync(), 0, { offset: 100, out: 40, back: 4 });
    expect(hostTimeAt(sync, 0)).toBe(118);
    sync = trip(sync, 60, { offset: 100, out: 2, back: 2 });
    expect(hostTimeAt(sync, 60)).toBe(160);
  });

  test('the burst has eight samples: the ninth moves the clock by and by', () => {
    const shownAfter = (samples: number) => {
      let sync = emptySync();
      for (let at = 0; at < samples - 1; at++) sync = trip(sync, at, { offset: 100, out: 60, back: 60 });
      return hostTimeAt(trip(sync, 100, { offset: 120, out: 1, back: 1 }), 100);
    };
    expect(shownAfter(8)).toBe(220);
    expect(shownAfter(9)).toBe(200);
  });

  test('a small error goes at 5 ms a second, and stops when it is gone', () => {
    const sync = trip(settled(100, 60), 10_000, { offset: 120, out: 1, back: 1 });
    const shown = (after: number) => hostTimeAt(sync, 10_000 + after)! - 10_000 - after;
    expect(shown(0)).toBeCloseTo(100, 9);
    expect(shown(1000)).toBeCloseTo(105, 9);
    expect(shown(4000)).toBeCloseTo(120, 9);
    expect(shown(50_000)).toBeCloseTo(120, 9);
  });

  test('the other way round the clock goes slower and never back', () => {
    const sync = trip(settled(100, 60), 10_000, { offset: 50, out: 1, back: 1 });
    for (let at = 10_000; at < 25_000; at += 7)
      expect(hostTimeAt(sync, at + 7)!).toBeGreaterThan(hostTimeAt(sync, at)!);
    expect(hostTimeAt(sync, 25_000)! - 25_000).toBeCloseTo(50, 9);
  });

  test('a large error of a slow line is gone in four seconds, with the clock never back', () => {
    let sync = emptySync();
    for (let at = 0; at < 10_000; at += 1000) sync = trip(sync, at, { offset: 0, out: 400, back: 0 });
    sync = trip(sync, 10_000, { offset: 0, out: 1, back: 1 });
    const shown = (after: number) => hostTimeAt(sync, 10_000 + after)! - 10_000 - after;
    expect(shown(0)).toBeCloseTo(200, 9);
    expect(shown(2000)).toBeCloseTo(100, 9);
    expect(shown(4000)).toBeCloseTo(0, 9);
  });

  test('one of more than two seconds makes the clock go at half its speed', () => {
    let sync = emptySync();
    for (let at = 0; at < 10_000; at += 1000) sync = trip(sync, at, { offset: 0, out: 10_000, back: 0 });
    sync = trip(sync, 10_000, { offset: 0, out: 1, back: 1 });
    expect(hostTimeAt(sync, 11_000)! - hostTimeAt(sync, 10_000)!).toBeCloseTo(500, 9);
  });

  test('a new epoch begins anew: nothing measured before counts', () => {
    const sync = trip(settled(100), 10_000, { offset: 9000, out: 40, back: 40, epoch: 'b' });
    expect(sync.samples).toHaveLength(1);
    expect(hostTimeAt(sync, 10_000)! - 10_000).toBe(9000);
  });
});

describe('[sync] over simulated lines', () => {
  const seeds = [1, 2, 3, 4, 5, 6];
  const HALF_HOUR = 30 * 60_000;
  const errorsOver = (line: Line) =>
    looksOver(line, HALF_HOUR)
      .filter(({ at }) => at > 1000)
      .map(({ error }) => Math.abs(error));

  test.each(seeds)('with 20 ms of jitter 99 of 100 looks are within 10 ms (seed %i)', (seed) => {
    expect(quantile(errorsOver(wifi(seed, { jitter: 20, loss: 0.02 })), 0.99)).toBeLessThan(10);
  });

  test.each(seeds)('with 80 ms of jitter and a tenth of all lost they are within 25 ms (seed %i)', (seed) => {
    expect(quantile(errorsOver(wifi(seed, { jitter: 80, loss: 0.1, drift: -45e-6 })), 0.99)).toBeLessThan(25);
  });

  test.each(seeds)('a path that is always 16 ms slower out is wrong by 8 ms and what jitter adds (seed %i)', (seed) => {
    const worst = Math.max(...errorsOver(wifi(seed, { jitter: 2, asymmetry: 16, drift: 0 })));
    expect(worst).toBeGreaterThan(7);
    expect(worst).toBeLessThan(9.5);
  });

  test.each(seeds)(
    'the error is within the bound, also where one way is held up by 300 ms from the first (seed %i)',
    (seed) => {
      const usual = wifi(seed, { jitter: 20, loss: 0.05, drift: 45e-6 });
      const held = (from: number, until: number): Line => ({
        ...usual,
        back: (at) => {
          const ms = usual.back(at);
          return ms === null ? null : ms + (at >= from && at < until ? 300 : 0);
        },
      });
      for (const line of [usual, held(0, HALF_HOUR), held(0, 60_000), held(600_000, HALF_HOUR)])
        for (const { at, error, bound } of looksOver(line, HALF_HOUR))
          expect(Math.abs(error), `after ${at} ms`).toBeLessThanOrEqual(bound);
    },
  );
});

/** After ten samples of a line that takes so many ms each way. */
function settled(offset: number, way = 5): Sync {
  let sync = emptySync();
  for (let at = 0; at < 10_000; at += 1000) sync = trip(sync, at, { offset, out: way, back: way });
  return sync;
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

/** A round trip that comes to an offset and a delay, as a vector has them. */
function filtered(sync: Sync, offset: number, delay: number, t4: number): Sync {
  const t1 = t4 - delay;
  const came = t1 + delay / 2 + offset;
  return addSample(sync, { t1, t2: came, t3: came, t4, epoch: 'a' });
}
