/* Critical swim speed, against the published vectors (shared check values 1A and 1B). */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cssOf, trialTime } from '../../../app/core/pace/css-trials.ts';

const trials = (distances: readonly number[], seconds: readonly number[]) =>
  distances.map((distance, index) => ({ distance: distance * 10, time: Math.round(seconds[index]! * 1000) }));

const css = (distances: readonly number[], seconds: readonly number[]): number | null => {
  const test = cssOf(trials(distances, seconds));
  return test.ok ? test.css : null;
};

describe('[Wakayoshi 1993] a 400 and a 200', () => {
  test.each([
    [360, 170, 95_000],
    [390, 180, 105_000],
    [330, 156, 87_000],
    [300, 143, 78_500],
    [285.4, 137.2, 74_100],
    [220.07, 102, 59_035],
  ])('%d s and %d s: %d ms a 100, whichever came first', (t400, t200, pace) => {
    expect(cssOf(trials([400, 200], [t400, t200]))).toEqual({ ok: true, css: pace, caution: null });
    expect(css([200, 400], [t200, t400])).toBe(pace);
  });

  test('[Ginn 1993] a 50 and a 400 likewise: 1:16.91', () => {
    expect(css([50, 400], [31, 300.2])! / 1000).toBeCloseTo(76.91, 2);
  });

  test('a 400 that took no longer than the 200 is no test', () => {
    for (const t400 of [170, 160]) expect(cssOf(trials([400, 200], [t400, 170]))).toMatchObject({ ok: false });
    expect(cssOf(trials([200, 200], [170, 171]))).toMatchObject({ ok: false });
    expect(cssOf(trials([400], [360]))).toMatchObject({ ok: false });
  });

  test('a 400 swum as fast as the 200, or faster, is doubtful and says so', () => {
    expect(cssOf(trials([400, 200], [240, 125]))).toEqual({ ok: true, css: 57_500, caution: expect.any(String) });
    expect(cssOf(trials([400, 200], [250, 125]))).toMatchObject({ caution: expect.any(String) });
    expect(cssOf(trials([400, 200], [250.01, 125]))).toMatchObject({ caution: null });
  });
});

test('what is wrong with a test is said, and what is doubtful', () => {
  const two = {
    ok: false,
    why: 'A CSS test needs two trials or more, each of a distance of its own, as a 400 and a 200.',
  };
  const longer = { ok: false, why: 'The longer trial took no longer than the shorter one: check the times.' };
  const caution =
    'The longer trial was swum at least as fast as the shorter one, so that was not at full effort: test again.';
  const none = { ok: false, why: 'That comes to no pace from 0:20 to 10:00 per 100: check distances and times.' };
  expect([cssOf([]), cssOf(trials([400], [360])), cssOf(trials([200, 200], [170, 171]))]).toEqual([two, two, two]);
  expect(cssOf(trials([400, 200], [49.9, 10]))).toEqual(none);
  expect(cssOf(trials([200, 400, 400], [170, 360, 361]))).toEqual(two);
  expect(cssOf(trials([400, 200], [170, 170]))).toEqual(longer);
  expect(cssOf(trials([200, 400, 800], [170, 160, 750]))).toEqual(longer);
  expect(cssOf(trials([400, 200], [240, 125]))).toMatchObject({ caution });
  // The 800 is doubtful beside the 400, whatever the 200 was.
  expect(cssOf(trials([200, 400, 800], [150, 360, 710]))).toMatchObject({ caution });
});

describe('[Wakayoshi 1992] three trials or more: least squares of distance on time', () => {
  test.each([
    [[200, 400, 800], [144, 304, 624], 80],
    [[200, 400, 800], [170, 360, 750], 96.79],
    [[50, 100, 200, 400], [31, 66, 142, 302], 77.83],
    [[200, 400, 800, 1500], [102, 219.96, 452.12, 870.67], 59.11],
  ])('%j in %j s: %d s a 100', (distances, seconds, pace) => {
    expect(Math.round(css(distances, seconds)! / 10) / 100).toBe(pace);
  });
});

test('[Wakayoshi 1992] of two trials the regression is the line through both, whatever they are', () => {
  // In hundredths, as watches have them.
  const ms = fc.integer({ min: 42_00, max: 900_00 }).map((hundredths) => hundredths * 10);
  fc.assert(
    fc.property(ms, ms, (short, more) => {
      expect(cssOf(trials([200, 400], [short / 1000, (short + more) / 1000]))).toMatchObject({
        ok: true,
        css: more / 2,
      });
    }),
  );
});

test('[css] what comes to no pace that a lane can have is refused', () => {
  for (const t400 of [49.9, 1400]) expect(cssOf(trials([400, 200], [t400, 10]))).toMatchObject({ ok: false });
  expect(cssOf(trials([400, 200], [50, 10]))).toMatchObject({ ok: true, css: 20_000 });
  expect(cssOf(trials([400, 200], [1210, 10]))).toMatchObject({ ok: true, css: 600_000 });
});

describe('[trials] a time', () => {
  test.each([
    ['6:00', 360_000],
    ['3:40.07', 220_070],
    ['2:17.2', 137_200],
    [' 4:45,4 ', 285_400],
    ['31', 31_000],
    ['0:31.05', 31_050],
    ['25:10', 1_510_000],
  ])('%s is read to the hundredth', (text, time) => {
    expect(trialTime(text)).toBe(time);
  });

  test.each(['', 'fast', '6.00.0', '1:60', '345', '0:00', '-1:00', '1:2', '1:00.123', '1::00'])(
    '%j is none',
    (text) => {
      expect(trialTime(text)).toBeNull();
    },
  );
});
