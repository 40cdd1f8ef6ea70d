// @vitest-environment happy-dom
/*
 * The record as it is shown and printed: figures that stand side by side agree.
 */

import { cleanup, render, screen, within } from '@testing-library/react';
import { afterEach, expect, test } from 'vitest';
import { NOTHING_ADDED } from '../../../../app/core/record/afterwards.ts';
import { recordOf } from '../../../../app/core/record/record.ts';
import { reviewJson, type ReviewJson } from '../../../../app/core/record/tables/review-json.ts';
import { RecordView } from '../../../../renderer/desk/afterwards/record-view.tsx';
import { keptRun } from '../../../support/run/kept-run.ts';

afterEach(cleanup);

const TEXT = 'Squad\nlane 1\n\nMain set\n2 x 50 fast @ 1:00 hold 0:46\n';

const review = (): ReviewJson => reviewJson(recordOf(keptRun(TEXT, [[0, { do: 'start' }]])), []);

const show = (shown: ReviewJson, added = NOTHING_ADDED): void =>
  void render(<RecordView review={shown} added={added} onCss={() => undefined} />);

const rowsOf = (caption: string): readonly string[] =>
  within(screen.getByRole('table', { name: caption }))
    .getAllByRole('row')
    .slice(1)
    .map((row) => Array.from(row.children, (cell) => cell.textContent).join('|'));

test('[record] a part took so much longer or shorter as the whole seconds beside it say', () => {
  const whole = review();
  const parts = [
    { part: 'Warm-up', plannedMs: 530_000, durationMs: 111_400 },
    { part: 'Main set', plannedMs: 470_000, durationMs: 530_900 },
    { part: 'Swim-down', plannedMs: 60_000, durationMs: 60_900 },
  ];
  show({ ...whole, record: { ...whole.record, parts } });
  expect(rowsOf('Parts against the plan')).toEqual([
    'Warm-up|8:50|1:51|6:59 shorter',
    'Main set|7:50|8:50|1:00 longer',
    'Swim-down|1:00|1:00|as planned',
  ]);
});

test('[record] the load stands beside the effort and the time that it is made of', () => {
  const whole = review();
  show({ ...whole, record: { ...whole.record, durationMs: 3_144_000 } }, { ...NOTHING_ADDED, effort: 6 });
  // 52.4 minutes.
  expect(screen.getByText('load, effort 6 × 52:24').nextSibling?.textContent).toBe('314');
  // The same minutes, whenever the first swimmers left.
  expect(screen.getByText('from the opening to the end').nextSibling?.textContent).toBe('52 min');
});

test('[record] a command that was undone is one line, without the leave that never came about', () => {
  const commands = [
    [0, { do: 'start' }],
    [30, { do: 'shift', seconds: 5 }],
    [35, { do: 'undo' }],
  ] as const;
  show(reviewJson(recordOf(keptRun(TEXT, commands)), []));
  const lines = screen.getByRole('heading', { name: 'What happened' }).nextElementSibling!.children;
  expect(Array.from(lines, ({ textContent }) => textContent)).toEqual([
    '19:30 Started Main set: first leave in 10 s.',
    '19:30 Undone: +5 s',
  ]);
});

test('[record] a time in which the program was not running stands among what happened, at its time', () => {
  const commands = [
    [0, { do: 'start' }],
    [100, { do: 'mark', words: 'cramp' }],
  ] as const;
  const kept = { ...keptRun(TEXT, commands), away: [{ from: 75_000, to: 95_200 }] };
  show(reviewJson(recordOf(kept), kept.away));
  const lines = screen.getByRole('heading', { name: 'What happened' }).nextElementSibling!.children;
  expect(Array.from(lines, ({ textContent }) => textContent)).toEqual([
    '19:30 Started Main set: first leave in 10 s.',
    '19:31 Lanecall was not running for 20.2 s. No leave was due in that time.',
    '19:31 cramp',
  ]);
});

test('[record] [who was there] on paper a number beside names is of the others, and no lane loses its own', () => {
  const attendance = [
    { lane: 1, swimmers: 4, names: ['Eva from the other club'] },
    { lane: 2, swimmers: 3, names: null },
    { lane: 3, swimmers: 2, names: ['Ana', 'Bram'] },
    { lane: 4, swimmers: 0, names: [] },
  ];
  show(review(), { ...NOTHING_ADDED, attendance });
  expect(screen.getByRole('heading', { name: 'Who was there' }).nextElementSibling?.textContent).toBe(
    'lane 1: 3 and Eva from the other club; lane 2: 3; lane 3: Ana and Bram; lane 4: 0',
  );
});

test.each([
  ['shoulder, Tom: physio', '19:30 shoulder, Tom: physio, lane 1'],
  ['Shoulder', '19:30 Shoulder, lane 1'],
  ['left, see the physio', '19:30 shoulder, left, see the physio, lane 1'],
  ['', '19:30 shoulder, lane 1'],
])('[record] [mark] on paper its own words stand once: "%s" added', (words, said) => {
  const commands = [
    [0, { do: 'start' }],
    [30, { do: 'mark', lanes: [1], words: 'shoulder' }],
  ] as const;
  show(reviewJson(recordOf(keptRun(TEXT, commands)), []), { ...NOTHING_ADDED, marks: [{ command: 1, words }] });
  const lines = screen.getByRole('heading', { name: 'What happened' }).nextElementSibling!.children;
  expect(lines[1]?.textContent).toBe(said);
});

test('[record] [times] a time that nobody swims is marked', () => {
  const times = [
    { lane: 1, at: 10_000, watches: [38_000] },
    { lane: 1, at: 70_000, watches: [17_000] },
  ];
  const added = { ...NOTHING_ADDED, times };
  show(reviewJson(recordOf(keptRun(TEXT, [[0, { do: 'start' }]]), added), []), added);
  expect(rowsOf('Lane 1, 50 fast Main set').slice(0, 2)).toEqual([
    '1 of 2|0:38.0|1:16.0|8.0 s under',
    '2 of 2|0:17.0 too soon?|0:34.0|29.0 s under',
  ]);
});
