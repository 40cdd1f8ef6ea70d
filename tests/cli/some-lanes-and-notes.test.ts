/*
 * Lines of some lanes, reps that differ, notes and kit, as the timetable prints them and hands them to programs.
 */

import { expect, test } from 'vitest';
import { timetableJson } from '../../app/cli/timetable/format-json.ts';
import { timetableText } from '../../app/cli/timetable/format-text.ts';
import { openPlan } from '../../app/core/plan/open-plan.ts';
import type { Plan } from '../../app/core/plan/plan.ts';

function planOf(text: string): Plan {
  const plan = openPlan({ text, lanesText: null });
  if (!plan.ok) throw new Error(JSON.stringify(plan.faults));
  return plan.value;
}

const plan = planOf(`Harbour squad
note: the clock is slow
lane 1 base 1:30
lane 2 base 1:40
lane 4 base 2:00
Main
kit: paddles
lanes 1, 4: 2 x 50 free odds fast @ 0:50/1:00, evens rest 20
lane 2: 100 easy @ 2:00
300 swim 200 kick @ 9:00
`);

test('[lanes] a line of some lanes names them, and lists their values alone', () => {
  const text = timetableText(plan, null).replace(/\s+/g, ' ');
  expect(text).toContain('lanes 1 and 4: 2 x 50 free, odds fast, evens @ ≈0:50-1:00/1:00-1:15');
  expect(text).toContain('lane 2: 100 easy @ 2:00');
});

test('[note] [kit] stand where they belong', () => {
  const lines = timetableText(plan, null).split('\n');
  expect(lines[2]).toBe('  note: the clock is slow');
  expect(lines[lines.findIndex((line) => line.startsWith('Main')) + 1]).toBe('  kit: paddles');
  expect(timetableJson(plan).notes).toEqual([
    { line: 2, part: null, partIndex: null, kind: 'note', words: 'the clock is slow' },
    { line: 7, part: 'Main', partIndex: 0, kind: 'kit', words: 'paddles' },
  ]);
});

test('[odds and evens] each leave has its own words, interval and estimate', () => {
  const leaves = timetableJson(plan).lanes[0]!.leaves.slice(0, 2);
  expect(leaves.map(({ words, intervalMs, estimated }) => [words, intervalMs, estimated])).toEqual([
    ['free fast', 50_000, false],
    ['free', 60_000, true],
  ]);
});

test('[words-distance] a distance among the words is warned of, once for all lanes', () => {
  const found = timetableJson(plan).warnings.filter(({ code }) => code === 'words-distance');
  expect(found.map(({ line, lane }) => [line, lane])).toEqual([[10, null]]);
});
