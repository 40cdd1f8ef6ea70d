/* What the coach did, in words. */

import { expect, test } from 'vitest';
import { NOTHING_ADDED } from '../../../app/core/record/afterwards.ts';
import { deedsOf } from '../../../app/core/record/deeds.ts';
import { recordOf } from '../../../app/core/record/record.ts';
import { keptRun } from '../../support/run/kept-run.ts';

const TEXT = 'Squad\nlane 1 base 2:00\nlane 2 base 2:00\n\nMain set\n4 x 100 @ 2:00\n';

test('[record] what was undone stands once, by its name and its lanes, where it named any', () => {
  const kept = keptRun(TEXT, [
    [0, { do: 'start' }],
    [40, { do: 'stop', lanes: [] }],
    [42, { do: 'undo' }],
    [50, { do: 'stop', lanes: [2] }],
    [52, { do: 'undo' }],
  ]);
  expect(deedsOf(recordOf(kept)).map(({ place, undone, words }) => [place, undone, words])).toEqual([
    [0, false, 'Started Main set: first leave in 10 s.'],
    [1, true, 'Stop'],
    [3, true, 'Stop, lane 2'],
  ]);
});

test('[record] a mark has the words it was given, and not those that were added afterwards', () => {
  const added = { ...NOTHING_ADDED, marks: [{ command: 1, words: 'left calf' }] };
  const commands = [
    [0, { do: 'start' }],
    [20, { do: 'mark', lanes: [2], words: 'cramp' }],
    [30, { do: 'mark', lanes: [1] }],
  ] as const;
  const [, first, second] = deedsOf(recordOf(keptRun(TEXT, commands), added));
  expect([first?.words, second?.words]).toEqual(['cramp', '']);
});
