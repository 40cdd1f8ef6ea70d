/*
 * From where on the times of a plan are estimates.
 */

import { expect, test } from 'vitest';
import { endsByEstimate, estimatedFrom, isEstimated, lineIsEstimate } from '../../../app/core/plan/estimates.ts';
import { retime } from '../../../app/core/plan/retime.ts';
import { planOf } from '../../support/run/deck.ts';

const SURE = '50 @ 1:00';

test('a stretch is one where an interval comes from a rest, or a set has none, in any of its reps', () => {
  const estimated = (text: string) => planOf(text).stretches.map(isEstimated);
  expect(estimated(SURE)).toEqual([false]);
  expect(estimated('5:00 easy')).toEqual([false]);
  expect(estimated(`${SURE}\n50 rest 10`)).toEqual([true]);
  expect(estimated(`50 easy\n${SURE}`)).toEqual([true, false]);
  expect(estimated(`${SURE}\n20:00 of 100s rest 10`)).toEqual([true]);
  expect(estimated('lane 1\nlane 2\n0/4 x 50 rest 10\n4/0 x 50 @ 1:00')).toEqual([true]);
});

test('asked again, a stretch is what it was', () => {
  for (const text of [SURE, '50 easy']) {
    const { stretches } = planOf(text);
    expect(isEstimated(stretches[0]!)).toBe(isEstimated(stretches[0]!));
    expect(isEstimated(stretches[0]!)).toBe(text !== SURE);
  }
});

test('what follows the first of them rests on it: the next stretch, or the end', () => {
  const from = (text: string) => [estimatedFrom(planOf(text)), endsByEstimate(planOf(text))];
  expect(from(`One\nA\n${SURE}\nB\n${SURE}`)).toEqual([3, false]);
  expect(from(`One\nA\n50 easy\nB\n${SURE}`)).toEqual([1, true]);
  expect(from(`One\nA\n${SURE}\nB\n50 easy`)).toEqual([2, true]);
});

test('[interval] reps whose interval changes lie where the new ones put them, those of the same stay the same', () => {
  const { reps } = planOf('3 x 50 @ 1:00').stretches[0]!.lanes[0]!;
  const longer = retime(reps, (rep) => (rep.rep === 2 ? 70_000 : rep.interval));
  expect(longer.reps.map(({ offset, interval }) => [offset, interval])).toEqual([
    [0, 60_000],
    [60_000, 70_000],
    [130_000, 60_000],
  ]);
  expect(longer.length).toBe(190_000);
  expect(longer.reps[0]).toBe(reps[0]);
  expect(retime(reps).reps).toEqual(reps);
  expect(retime(reps).reps[2]).toBe(reps[2]);
});

test('[fit] what a cut of a line saves is one where the set, or one in those rounds, goes by a rest', () => {
  const text = [
    ...['lane 1', 'lane 2', '2 rounds', '  2 rounds', '    0/2 x 50 @ 1:00', '    2/0 x 50 rest 10', '  50 @ 1:00'],
    ...['2 rounds', '  50 @ 1:00', '3 x 50 rest 10', '2 x 50 odds @ 1:00, evens rest 10', 'talk 1:00', '50 easy'],
  ].join('\n');
  const { stretches } = planOf(text);
  const lines = text.split('\n').map((_, index) => index + 1);
  expect(lines.filter((line) => lineIsEstimate(stretches, line))).toEqual([3, 4, 6, 10, 11, 13]);
});
