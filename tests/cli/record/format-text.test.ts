import { expect, test } from 'vitest';
import { recordText } from '../../../app/cli/record/format-text.ts';
import { NOTHING_ADDED } from '../../../app/core/record/afterwards.ts';
import { recordOf } from '../../../app/core/record/record.ts';
import { keptRun } from '../../support/run/kept-run.ts';

test("[mark] a mark's own words stand once where what was added begins with them; one without any is a mark", () => {
  const kept = keptRun('Squad\n50 @ 1:00\n', [
    [20, { do: 'mark', lanes: [1], words: 'cramp' }],
    [21, { do: 'mark', words: 'windy' }],
    [22, { do: 'mark' }],
  ]);
  const marks = [
    { command: 0, words: 'Cramp: left calf' },
    { command: 1, words: 'from the east' },
  ];
  expect(recordText(recordOf(kept, { ...NOTHING_ADDED, marks }))).toContain(
    ['  19:30:20  Cramp: left calf, lane 1', '  19:30:21  windy, from the east', '  19:30:22  a mark'].join('\n'),
  );
});
