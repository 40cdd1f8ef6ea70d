/*
 * What the review of a run shows beside its record: commands in words, hand times, tests, spans and leaves not called.
 */

import { expect, test } from 'vitest';
import { NOTHING_ADDED } from '../../../../app/core/record/afterwards.ts';
import { recordJson } from '../../../../app/core/record/tables/record-json.ts';
import { recordOf } from '../../../../app/core/record/record.ts';
import { reviewJson } from '../../../../app/core/record/tables/review-json.ts';
import { keptRun } from '../../../support/run/kept-run.ts';

const TEXT = `Squad
lane 1 base 1:30, 3 swimmers
lane 2 base 1:30

Warm-up
2 x 50 easy @ 1:00 hold 0:45

Main set
400 @ 8:00
200 @ 5:00
`;

/** Leaves at 10 and 70 s, and from the second start on at 310 and 790 s. */
const kept = () =>
  keptRun(TEXT, [
    [0, { do: 'start' }],
    [20, { do: 'mark', lanes: [2], words: 'cramp' }],
    [30, { do: 'skip', lanes: [2] }],
    [32, { do: 'undo' }],
    [300, { do: 'start' }],
  ]);

test('[review] it has the record, the unit and what was planned, in lane order', () => {
  const record = recordOf(kept());
  const review = reviewJson(record, []);
  expect(review.record).toEqual(recordJson(record));
  expect(review).toMatchObject({ unit: 'm', openedAtTimeOfDayMs: 70_200_000, plannedReps: [4, 4] });
});

test('[review] every command in words, a mark in its own, one that was undone once and by its name', () => {
  const added = { ...NOTHING_ADDED, marks: [{ command: 1, words: 'left calf' }] };
  const { happened } = reviewJson(recordOf(kept(), added), []);
  expect(happened).toEqual([
    {
      ...{ command: 0, atMs: 0, isMark: false, undone: false, lanes: [] },
      words: 'Started Warm-up: first leave in 10 s.',
    },
    // What was added stands beside it, where it can be changed.
    { command: 1, atMs: 20_000, isMark: true, undone: false, lanes: [2], words: 'cramp' },
    {
      ...{ command: 2, atMs: 30_000, isMark: false, undone: true, lanes: [2] },
      // One line: no undo of its own, and nothing of what never came about.
      words: 'Skip rep, lane 2',
    },
    {
      ...{ command: 4, atMs: 300_000, isMark: false, undone: false, lanes: [] },
      words: 'Started Main set: first leave in 10 s.',
    },
  ]);
});

test('[review] hand times by set, and tests with their pace or why they come to none', () => {
  const times = [
    { lane: 1, at: 70_000, watches: [46_000] },
    { lane: 1, at: 310_000, watches: [360_000] },
    { lane: 1, at: 790_000, watches: [170_000] },
    { lane: 2, at: 310_000, watches: [160_000] },
    { lane: 2, at: 790_000, watches: [170_000] },
  ];
  const { sets, css } = reviewJson(recordOf(kept(), { ...NOTHING_ADDED, times }), []);
  expect(sets[0]).toEqual({
    ...{ lane: 1, part: 'Warm-up', line: 6, words: '50 easy', fadeMs: null },
    reps: [{ rep: 2, of: 2, atMs: 70_000, timeMs: 46_000, paceMs: 92_000, overMs: 1000 }],
  });
  expect(sets.map(({ lane, words }) => `${lane}: ${words}`)).toEqual([
    ...['1: 50 easy', '1: 400 m', '1: 200 m', '2: 400 m', '2: 200 m'],
  ]);
  expect(css).toEqual([
    { lane: 1, cssMs: 95_000, caution: null, why: null },
    {
      ...{ lane: 2, cssMs: null, caution: null },
      why: 'The longer trial took no longer than the shorter one: check the times.',
    },
  ]);
});

test('[review] leaves that fell due while nobody was there, in words; times in which none did are left out', () => {
  const away = [
    { from: 10_000, to: 69_999 },
    { from: 69_999, to: 70_000 },
    { from: 70_000, to: 309_999 },
    { from: 309_000, to: 800_000 },
  ];
  expect(reviewJson(recordOf({ ...kept(), away }), away).notCalled).toEqual([
    { fromMs: 69_999, toMs: 70_000, leaves: 'lane 1: 50 easy, rep 2; lane 2: 50 easy, rep 2' },
    {
      ...{ fromMs: 309_000, toMs: 800_000 },
      leaves: 'lane 1: 400, rep 1; lane 1: 200, rep 1; lane 2: 400, rep 1; lane 2: 200, rep 1',
    },
  ]);
});
