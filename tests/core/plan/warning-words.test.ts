/*
 * Warnings as a coach reads them, whole sentences, from the text of a session.
 */

import { expect, test } from 'vitest';
import { warningsOf } from '../../../app/core/plan/warnings/warnings.ts';
import { planOf } from '../../support/run/deck.ts';

/** The sentences of one kind, each with its line and lane. */
const said = (code: string, ...lines: string[]) =>
  warningsOf(planOf(lines.join('\n')))
    .filter((warning) => warning.code === code)
    .map(({ line, lane, message }) => [line, lane, message]);

const FULL =
  'Lane 1 is too full to swim in a circle: 9 swimmers 10 s apart take up 1:30, the lead is back after 50 m in';

test.each([
  ['lane 1 9 swimmers, gap 10', '100 easy', 'about 1:00.5 (base 2:00 assumed)'],
  ['lane 1 9 swimmers, gap 10', '100 easy hold 1:00', 'about 30 s'],
  ['lane 1 9 swimmers, gap 10', '4 x 100 @ 4:00', 'about 55 s (base 2:00 assumed)'],
  ['lane 1 9 swimmers, gap 10', '4 x 100 @ 4:00 hold 1:00', 'about 30 s'],
  ['lane 1 base 2:00, 9 swimmers, gap 10', '4 x 100 @ 4:00', 'about 55 s'],
])('[lane-full] %s, %s: an assumed base is named where the time rests on it', (lane, line, time) => {
  expect(said('lane-full', lane, line)).toEqual([[2, 1, `${FULL} ${time}.`]]);
});

test('[lane-full] no swim by time is judged', () => {
  expect(said('lane-full', 'lane 1 20 swimmers, gap 60', '10:00 easy')).toEqual([]);
});

test('[tail-late] says how late the last leaves and when the lead is to leave again', () => {
  expect(said('tail-late', 'lane 1 7 swimmers', '2 x 25 @ 0:30')).toEqual([
    [2, 1, 'Lane 1: the last of 7 swimmers 5 s apart leaves 30 s after the lead, who is to leave again after 30 s.'],
  ]);
});

test('[tail-late] once a line, by the rep that leaves the least', () => {
  expect(said('tail-late', 'lane 1 9 swimmers', '3 x 25 @ 0:40 drop 5')).toEqual([
    [2, 1, expect.stringContaining('leave again after 35 s.')],
  ]);
  expect(said('tail-late', 'lane 1 9 swimmers', '3 x 25 @ 0:30 add 5')).toEqual([
    [2, 1, expect.stringContaining('leave again after 30 s.')],
  ]);
});

test('[far-end] counts the lengths so far, once a line', () => {
  expect(said('far-end', 'lane 1 base 2:00', '3 x 25 @ 1:00', '100 @ 2:00', '100 @ 2:00')).toEqual([
    [2, 1, 'Lane 1 ends this set at the far end, away from the screen (3 lengths so far).'],
    [3, 1, 'Lane 1 ends this set at the far end, away from the screen (7 lengths so far).'],
  ]);
  expect(said('far-end', '2 rounds', '  3 x 25 @ 1:00', '  4 x 25 @ 1:00')).toHaveLength(2);
});

test('[far-end] an untimed set counts all its reps, a swim by time none', () => {
  expect(said('far-end', '3 x 25 easy', '100 @ 2:00')).toEqual([[1, 1, expect.stringContaining('(3 lengths so far)')]]);
  expect(said('far-end', '5:00 easy', '25 @ 1:00', '10:00', '100 @ 2:00')).toEqual([
    [2, 1, expect.stringContaining('(1 length so far)')],
  ]);
});

test.each([
  ['6 x 100 @ 2:00', 'The plan ends at 06:12, 2 min after the finish at 06:10.'],
  ['6 x 100 @ 2:00\n100 easy', 'The plan ends at ≈06:14:05, ≈4 min 5 s after the finish at 06:10.'],
  ['100 rest 10\n6 x 100 @ 2:00', 'The plan ends at ≈06:14, ≈4 min after the finish at 06:10.'],
])('[over-time] at the line of the finish, with ≈where it rests on an estimate: %j', (lines, sentence) => {
  expect(said('over-time', 'start 6:00', 'finish 6:10', 'lane 1 base 2:00', lines)).toEqual([[2, null, sentence]]);
});

test('[over-time] none for a plan that ends at the finish', () => {
  expect(said('over-time', 'start 6:00', 'finish 6:10', '5 x 100 @ 2:00')).toEqual([]);
});

test('[part-lengths] of all lanes once, of lanes with distances of their own each', () => {
  const fact = '60 m is not a whole number of lengths in a pool of 25 m.';
  expect(said('part-lengths', 'lane 1', 'lane 2', '50/60 @ 2:00', '60 @ 2:00')).toEqual([
    [3, 2, `Lane 2: ${fact}`],
    [4, null, fact],
  ]);
  expect(said('part-lengths', 'lane 1', 'lane 2', '20:00 of 60/60 @ 2:00')).toEqual([
    [3, 1, `Lane 1: ${fact}`],
    [3, 2, `Lane 2: ${fact}`],
  ]);
  expect(said('part-lengths', '50-60-50 @ 2:00')).toEqual([[1, null, fact]]);
});

test('[empty-part] names the part', () => {
  expect(said('empty-part', 'T', 'Warm-up', 'Main', '50')).toEqual([[2, null, '"Warm-up" has nothing under it.']]);
});

test('[assumed-base] at the first line that rests on it', () => {
  const assumed = [1, 'Lane 1 has neither base nor css: its times rest on an assumed base of 2:00.'];
  const at = (...lines: string[]) => said('assumed-base', ...lines);
  expect(at('50 @ 1:00', '50 @ base')).toEqual([[2, ...assumed]]);
  expect(at('50 @ 1:00', '50 rest 10')).toEqual([[2, ...assumed]]);
  expect(at('50 @ 1:00', '50 easy')).toEqual([[2, ...assumed]]);
  expect(at('5:00 easy', '50 rest 10 hold 0:50', '50 easy hold 0:50')).toEqual([]);
  expect(at('lane 1', 'lane 2 base 2:00', '0/4 x 50 @ base', '50 @ base')).toEqual([[4, ...assumed]]);
  // A single rep is an odd one: what the evens go by is swum by nobody.
  expect(at('1 x 50 odds @ 1:00, evens @ base', '2 x 50 odds @ 1:00, evens @ base')).toEqual([[2, ...assumed]]);
});
