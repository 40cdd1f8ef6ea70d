/* What was not called while the program was not running, in a sentence. */

import { expect, test } from 'vitest';
import { leavesOf } from '../../../app/core/run/record.ts';
import { settle } from '../../../app/core/run/settle.ts';
import { notCalledText, notRunningText } from '../../../app/core/words/away.ts';
import { Deck } from '../../support/run/deck.ts';

const said = (text: string, from: number, to: number): string => {
  const { state } = new Deck(text).at(0, { do: 'start' });
  return notCalledText(leavesOf(settle(state, to)), { from, to });
};

test('[recovery] it is said how long it was', () => {
  expect([36_200, 75_000].map(notRunningText)).toEqual([
    'Lanecall was not running for 36.2 s',
    'Lanecall was not running for 1:15',
  ]);
});

test('[R1] the leaves due in that time, also one due at its very end', () => {
  const text = 'Main set\n4 x 50 @ 0:30\n';
  expect(said(text, 10_000, 70_000)).toBe('Not called in that time: lane 1: 50, reps 2 and 3.');
  expect(said(text, 9999, 10_000)).toBe('Not called in that time: lane 1: 50, rep 1.');
});

test('[R2] the lanes of swimmers behind a lead who were due in it, where no lead was', () => {
  const text = 'lane 1 3 swimmers, gap 5\nlane 2 2 swimmers, gap 10\nlane 3\n\nMain set\n1 x 50 @ 1:00\n';
  const behind = (lanes: string): string =>
    `No lane was due to begin a rep in that time, but in ${lanes} swimmers behind their lead were due to leave.`;
  expect(said(text, 14_999, 15_000)).toBe(behind('lane 1'));
  expect(said(text, 15_000, 19_999)).toBe('No leave was due in that time.');
  expect(said(text, 15_000, 30_000)).toBe(behind('lanes 1 and 2'));
  expect(said(text, 20_000, 60_000)).toBe('No leave was due in that time.');
});
