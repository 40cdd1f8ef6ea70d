// The largest sessions that are allowed, through every format of the timetable: a list that is handed to a
// function as its arguments runs out of stack at some tens of thousands.

import { readDay } from '../../app/core/day.ts';
import { describe, expect, test } from 'vitest';
import { timetableCsv } from '../../app/cli/timetable/format-csv.ts';
import { timetableIcs } from '../../app/cli/timetable/format-ics.ts';
import { timetableJson } from '../../app/cli/timetable/format-json.ts';
import { timetableText } from '../../app/cli/timetable/format-text.ts';
import { openPlan } from '../../app/core/plan/open-plan.ts';
import type { Plan } from '../../app/core/plan/plan.ts';
import { plannedTimes } from '../../app/core/plan/schedule.ts';

const DAY = readDay('2026-03-05')!;

/** `count` times one line; `from` says what stands on each. */
function lines(count: number, from: (index: number) => string): string {
  return Array.from({ length: count }, (_, index) => from(index)).join('\n');
}

const TWENTY_LANES = lines(20, (index) => `lane ${index + 1} base 2:00, 20 swimmers, gap 60`);

const LARGEST: readonly (readonly [of: string, text: string])[] = [
  ['talks, 100 000 of them in rounds', `start 6:00\nMain\n500 rounds\n${lines(200, () => '  talk :01')}\n25 @ :30`],
  ['lines, each a talk', `start 6:00\nMain\n${lines(29_000, () => 'talk :01')}\n25 @ :30`],
  ['leaves, 100 000 of one lane', `start 6:00\nMain\n500 rounds\n  200 x 25 @ :30`],
  ['leaves, 100 000 of one lane, each a set', `start 6:00\nMain\n500 rounds\n${lines(200, () => '  25 @ :30')}`],
  ['parts, as many as lines', `start 6:00\n${lines(14_000, (index) => `P${index % 9}\n50 @ :30`)}`],
  ['empty parts', `start 6:00\n${lines(60_000, () => 'Aa')}\n50 @ :30`],
  ['warnings, of every line in every lane', `start 6:00\n${TWENTY_LANES}\nMain\n${lines(2500, () => '60 @ :30')}`],
  [
    'untimed sets, 25 million swims in 50 000 leaves',
    `start 6:00\n${TWENTY_LANES}\nMain\n${lines(2500, () => '500 x 55 easy')}`,
  ],
];

describe.each(LARGEST)('%s', (_, text) => {
  let plan: Plan;

  test('is a plan', () => {
    const opened = openPlan({ text, lanesText: null });
    if (!opened.ok) throw new Error(JSON.stringify(opened.faults.faults.slice(0, 3)));
    plan = opened.value;
    expect(Buffer.byteLength(text)).toBeLessThanOrEqual(256 * 1024);
  });

  test.each([
    ['text', (): string => timetableText(plan, DAY)],
    ['json', (): string => JSON.stringify(timetableJson(plan))],
    ['csv', (): string => timetableCsv(plan, plannedTimes(plan))],
    ['ics', (): string => timetableIcs(plan, DAY, 360)],
  ])('is printed as %s', (__, print) => {
    expect(print().length).toBeGreaterThan(100);
  });
});
