/*
 * The mend of lists after a lane was added or taken out.
 */

import { expect, test } from 'vitest';
import { openPlan } from '../../../../app/core/plan/open-plan.ts';
import { listMend } from '../../../../app/core/session/tokens/list-mend.ts';
import { mended } from '../../../../app/core/session/tokens/mend.ts';

/** The line as the mend of its one fault leaves it, in a session of so many lanes. */
function mendedFor(lanes: number, line: string): string | null {
  const head = Array.from({ length: lanes }, (_, index) => `lane ${index + 1} css 1:30\n`).join('');
  const opened = openPlan({ text: `Title\n${head}Set\n${line}`, lanesText: null });
  if (opened.ok) return line;
  const [fault] = opened.faults.faults;
  const mend = listMend(line, fault!);
  return mend && mended(line, mend);
}

test.each([
  [4, '8/7/6 x 100 free @ 1:30', '8/7/6/6 x 100 free @ 1:30'],
  [2, '8/7/6 x 100 free @ 1:30', '8/7 x 100 free @ 1:30'],
  [1, '8/7/6 x 100 free @ 1:30', '8 x 100 free @ 1:30'],
  [3, '8/7 x 100 free @ base/base+5 hold 1:20/css-2', '8/7/7 x 100 free @ base/base+5/base+5 hold 1:20/css-2/css-2'],
  [3, '  8 / 7 x 100/75 rest 15/20 # strong / weak', '  8/7/7 x 100/75/75 rest 15/20/20 # strong / weak'],
  [3, 'lanes 1-2: 8/7/6 x 100 @ 2:00', 'lanes 1-2: 8/7 x 100 @ 2:00'],
  [
    3,
    '4 x 100 @ 2:00/2:10, 1:55/2:05, 2:00/2:10, 2:00/2:10',
    '4 x 100 @ 2:00/2:10/2:10, 1:55/2:05/2:05, 2:00/2:10/2:10, 2:00/2:10/2:10',
  ],
])('[mend] in %i lanes %s becomes %s', (lanes, line, right) => {
  expect(mendedFor(lanes, line)?.replace(/# strong.*$/, '# strong / weak')).toBe(right);
  expect(mendedFor(lanes, right)).toBe(right);
});

test('[mend] of another fault there is none', () => {
  expect(listMend('8/7 x 100 @ 1.30', { message: '1.30 is not a time: write 1:30' })).toBeNull();
});
